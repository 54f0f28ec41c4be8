# Writes values.json: comparisons within randomized blocks, from ../blocks-by-r/data.csv (lm, ptukey, qtukey, p.adjust), and a
# factorial of the fish scores S1 to S4 as two factors (lm with contrasts). R is used where its ptukey is right (df of 15 or more).
# Run: Rscript make.R > values.json (base R only)
marks <- read.csv("../blocks-by-r/data.csv", colClasses = c("character", "character", "character", "numeric"))
number <- function(x) formatC(x, digits = 17, format = "g")
row <- function(name, figures) sprintf("    [\"%s\", \"%s\", %s]", name[1], name[2], paste(number(figures), collapse = ", "))
cells_of <- function(set) aggregate(value ~ panelist + product, marks[marks$set == set, ], mean)
tukey <- function(set) {
  cells <- cells_of(set); products <- unique(marks$product[marks$set == set])
  cells$product <- factor(cells$product, levels = products)
  fit <- lm(value ~ panelist + product, cells); k <- length(products); df <- df.residual(fit)
  means <- tapply(cells$value, cells$product, mean); n <- length(unique(cells$panelist))
  se <- sqrt(2 * deviance(fit) / df / n); reach <- qtukey(0.95, k, df) / sqrt(2) * se
  rows <- c(); for (j in 1:(k - 1)) for (i in (j + 1):k) {
    d <- means[i] - means[j]
    rows <- c(rows, row(c(products[i], products[j]), c(d, d - reach, d + reach, ptukey(sqrt(2) * abs(d) / se, k, df, lower.tail = FALSE))))
  }
  sprintf("  \"%s\": [\n%s\n  ]", set, paste(rows, collapse = ",\n"))
}
factorial <- function() {
  cells <- cells_of("fish-corrected"); cells <- cells[cells$product %in% c("S1", "S2", "S3", "S4"), ]
  cells$product <- factor(cells$product)
  fit <- lm(value ~ 0 + product + panelist, cells, contrasts = list(panelist = "contr.sum"))
  weights <- rbind(c(-1, -1, 1, 1) / 2, c(-1, 1, -1, 1) / 2, c(1, -1, -1, 1))
  b <- coef(fit)[1:4]; V <- vcov(fit)[1:4, 1:4]
  d <- drop(weights %*% b); se <- sqrt(diag(weights %*% V %*% t(weights))); p <- 2 * pt(-abs(d / se), df.residual(fit))
  kinds <- c("first-factor", "second-factor", "interaction")
  rows <- sapply(1:3, function(i) row(c(kinds[i], ""), c(d[i], se[i], p[i], p.adjust(p, "holm")[i])))
  sprintf("  \"factorial\": [\n%s\n  ]", paste(rows, collapse = ",\n"))
}
cat("{\n  \"madeBy\": \"", R.version.string, "\",\n", paste(c(tukey("juiciness"), tukey("fish-corrected"), factorial()), collapse = ",\n"), "\n}\n", sep = "")
