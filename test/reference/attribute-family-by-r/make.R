# Writes values.json: several attributes of one panel, panelists as blocks (aov), their p after Holm (p.adjust), and what comparisons
# come to: two products at the risk that Holm's steps left (qt); three products by the studentized range at an even share of alpha
# (TukeyHSD), their p times the family. R's ptukey is right here (16 degrees of freedom).
# Run: Rscript make.R > values.json (base R only; the marks are drawn with the seeds below)
alpha <- 0.05
number <- function(x) paste(trimws(formatC(x, digits = 17, format = "g")), collapse = ", ")
draw <- function(seed, people, effects) {
  set.seed(seed)
  round(matrix(rep(rnorm(people, 50, 8), length(effects)), people) + rep(effects, each = people) + matrix(rnorm(people * length(effects), 0, 9), people), 1)
}
test <- function(marks) {
  long <- data.frame(value = c(marks), panelist = factor(c(row(marks))), product = factor(c(col(marks))))
  list(long = long, fit = aov(value ~ panelist + product, long))
}
pOf <- function(marks) { s <- summary(test(marks)$fit)[[1]]; s[trimws(rownames(s)) == "product", "Pr(>F)"] }
rowsOf <- function(marks) paste0("[", apply(marks, 1, function(r) paste(format(r, trim = TRUE), collapse = ", ")), "]", collapse = ", ")
case <- function(name, sets, family) {
  p <- sapply(sets, pOf); holm <- rep(NA, length(p)); holm[family] <- p.adjust(p[family], "holm"); m <- sum(family)
  out <- sapply(seq_along(sets), function(i) {
    marks <- sets[[i]]; fitted <- test(marks)
    if (ncol(marks) == 2) {
      d <- marks[, 2] - marks[, 1]; df <- length(d) - 1
      left <- if (family[i]) alpha * p[i] / holm[i] else alpha
      reach <- qt(1 - left / 2, df) * sd(d) / sqrt(length(d))
      rows <- sprintf("[%s]", number(c(mean(d), mean(d) - reach, mean(d) + reach, if (family[i]) holm[i] else p[i])))
    } else {
      share <- if (family[i]) m else 1
      t <- TukeyHSD(fitted$fit, "product", conf.level = 1 - alpha / share)$product
      rows <- paste(sprintf("[%s]", apply(t, 1, function(r) number(c(r[1:3], min(1, r[4] * share))))), collapse = ", ")
    }
    sprintf("      {\n        \"inFamily\": %s,\n        \"marks\": [%s],\n        \"p\": %s,\n        \"holm\": %s,\n        \"contrasts\": [%s]\n      }",
      tolower(family[i]), rowsOf(marks), number(p[i]), if (family[i]) number(holm[i]) else "null", rows)
  })
  sprintf("  \"%s\": [\n%s\n  ]", name, paste(out, collapse = ",\n"))
}
two <- case("two", list(draw(13, 9, c(0, 10)), draw(2, 9, c(0, 14)), draw(3, 9, c(0, 4)), draw(4, 9, c(0, 12))), c(TRUE, TRUE, TRUE, FALSE))
three <- case("three", list(draw(5, 9, c(0, 9, 14)), draw(6, 9, c(0, 2, 3)), draw(7, 9, c(0, 10, 16))), c(TRUE, TRUE, FALSE))
cat("{\n  \"madeBy\": \"", R.version.string, "\",\n", two, ",\n", three, "\n}\n", sep = "")
