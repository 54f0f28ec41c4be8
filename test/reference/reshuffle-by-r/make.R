# Products shuffled within panelists: every way to deal each panelist's values to the products is gone through, F of the block
# analysis (anova of lm) recomputed for each, and those counted that are at least the F observed. Data sets that ship with R:
# sleep (10 people, 2 drugs: 2^10 ways), the first runs of morley as blocks of three experiments (5 runs: 6^5 ways), and
# these with two values missing.
# Run here: Rscript make.R > values.json
options(digits = 17)
orders <- function(n) if (n == 1) matrix(1L) else do.call(rbind, lapply(seq_len(n), function(first) {
  rest <- orders(n - 1); cbind(first, matrix(seq_len(n)[-first][rest], nrow(rest)))
}))
fOf <- function(value, block, product) anova(lm(value ~ block + product))["product", "F value"]
enumerated <- function(name, data) {
  data <- data[order(data$block), ]
  block <- factor(data$block); product <- factor(data$product)
  blocks <- split(data$value, block)
  ways <- lapply(blocks, function(values) orders(length(values)))
  counts <- sapply(ways, nrow)
  observed <- fOf(data$value, block, product)
  # F is taken from the residual sums of one QR decomposition: lm for each of thousands of ways would take long
  full <- qr(model.matrix(~ block + product)); part <- qr(model.matrix(~ block))
  df <- c(full$rank - part$rank, nrow(data) - full$rank)
  fast <- function(value) {
    rest <- sum(qr.resid(full, value)^2)
    ((sum(qr.resid(part, value)^2) - rest) / df[1]) / (rest / df[2])
  }
  stopifnot(abs(fast(data$value) - observed) < 1e-8 * observed)
  at <- rep(1L, length(blocks)); as_least <- 0; total <- prod(counts)
  for (way in seq_len(total)) {
    value <- unlist(Map(function(values, table, row) values[table[row, ]], blocks, ways, at), use.names = FALSE)
    if (fast(value) >= observed * (1 - 1e-9)) as_least <- as_least + 1
    for (i in seq_along(at)) { if (at[i] < counts[i]) { at[i] <- at[i] + 1L; break }; at[i] <- 1L }
  }
  products <- levels(product)
  cells <- sapply(levels(block), function(b) sprintf("[%s]", paste(sapply(products, function(p) {
    found <- data$value[block == b & product == p]; if (length(found) == 0) "null" else format(found, digits = 17)
  }), collapse = ", ")))
  sprintf("    \"%s\": {\n      \"f\": %s,\n      \"ways\": %d,\n      \"atLeast\": %d,\n      \"blocks\": [%s]\n    }",
    name, format(observed, digits = 17), total, as_least, paste(cells, collapse = ", "))
}
drugs <- data.frame(block = sleep$ID, product = sleep$group, value = sleep$extra)
light <- subset(morley, Run <= 5 & Expt <= 3)
light <- data.frame(block = light$Run, product = light$Expt, value = light$Speed)
gaps <- light[!(light$block == 1 & light$product == 2) & !(light$block == 4 & light$product == 3), ]
cat("{\n  \"by\": \"", R.version.string, "\",\n  \"sets\": {\n", sep = "")
cat(paste(c(enumerated("sleep", drugs), enumerated("light", light), enumerated("light-with-gaps", gaps)), collapse = ",\n"))
cat("\n  }\n}\n")
