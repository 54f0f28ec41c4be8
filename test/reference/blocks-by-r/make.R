# Writes values.json beside this file from data.csv: lm and anova with panelists as blocks, repeats averaged first.
# Run: Rscript make.R (base R only; its version stands in values.json). Edit this script, never the values.

marks <- read.csv("data.csv", colClasses = c("character", "character", "character", "numeric"))
number <- function(x) ifelse(is.na(x), "null", trimws(formatC(x, digits = 17, format = "g")))
numbers <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
quoted <- function(x) paste0("[", paste0('"', x, '"', collapse = ", "), "]")
pairs_of <- function(k) do.call(rbind, lapply(seq_len(k - 1), function(j) cbind((j + 1):k, j)))

own_marks <- function(values) {
  n <- length(values)
  if (n < 2) return(c(n, mean(values), NA, NA, NA))
  c(n, mean(values), sd(values), t.test(values)$conf.int)
}

analyse <- function(name) {
  own <- marks[marks$set == name, ]
  products <- unique(own$product)
  cells <- aggregate(value ~ panelist + product, own, mean)
  enough <- names(which(table(cells$panelist) >= 2))
  used <- cells[cells$panelist %in% enough, ]
  used$panelist <- factor(used$panelist)
  used$product <- factor(used$product, levels = products)
  fit <- lm(value ~ panelist + product, used)
  products_last <- anova(fit)
  panelists_last <- anova(lm(value ~ product + panelist, used))
  grid <- expand.grid(panelist = levels(used$panelist), product = products)
  fitted_all <- predict(fit, grid)
  means <- tapply(fitted_all, factor(grid$product, levels = products), mean)
  k <- length(products)
  # a contrast of two products by name of coefficient; the first product has none
  weight <- function(i) as.numeric(names(coef(fit)) == paste0("product", products[i]))
  df <- df.residual(fit)
  pairs <- pairs_of(k)
  contrasts <- t(apply(pairs, 1, function(pair) {
    w <- weight(pair[1]) - weight(pair[2])
    difference <- sum(w * coef(fit))
    error <- sqrt(drop(t(w) %*% vcov(fit) %*% w))
    reach <- qt(0.025, df, lower.tail = FALSE) * error
    c(difference, error, difference - reach, difference + reach, 2 * pt(abs(difference / error), df, lower.tail = FALSE))
  }))
  adjusted <- p.adjust(contrasts[, 5], "holm")
  rows <- paste0('   {"first": "', products[pairs[, 1]], '", "second": "', products[pairs[, 2]], '", "figures": ',
    apply(cbind(contrasts, adjusted), 1, numbers), "}")
  alone <- sapply(products, function(product) own_marks(cells$value[cells$product == product]))
  marked <- sapply(products, function(product) sum(own$product == product))
  within <- if (nrow(own) > nrow(cells)) anova(lm(value ~ panelist * product, own))["Residuals", ] else NULL
  paste0(
    ' "', name, '": {\n',
    '  "products": ', quoted(products), ",\n",
    '  "products_last": ', numbers(c(products_last["product", "F value"], products_last["product", "Df"], df, products_last["product", "Pr(>F)"])), ",\n",
    '  "panelists_last": ', numbers(c(panelists_last["panelist", "F value"], panelists_last["panelist", "Df"], df, panelists_last["panelist", "Pr(>F)"])), ",\n",
    '  "panelistMeanSquare": ', number(panelists_last["panelist", "Mean Sq"]), ",\n",
    '  "residualMeanSquare": ', number(products_last["Residuals", "Mean Sq"]), ",\n",
    '  "leastSquaresMeans": ', numbers(means), ",\n",
    '  "marks": ', numbers(marked), ",\n",
    '  "own": [\n   ', paste(apply(alone, 2, numbers), collapse = ",\n   "), "\n  ],\n",
    '  "withinMeanSquare": ', if (is.null(within)) "null" else number(within$`Mean Sq`), ",\n",
    '  "contrasts": [\n', paste(rows, collapse = ",\n"), "\n  ]\n }"
  )
}

sets <- unique(marks$set)
writeLines(c(
  "{",
  ' "id": "blocks-by-r",',
  ' "title": "Scale marks with panelists as blocks: F tests, means, pairs",',
  ' "source": {',
  sprintf('  "what": "computed by make.R with lm, anova, t.test and p.adjust", "madeBy": "%s",', R.version.string),
  '  "data": {',
  '   "juiciness": "invented for the demo", "juiciness-with-gaps": "the same, five cells taken out, so that seat 11 has one",',
  '   "wine": "Randall 1989, Biometrical Journal 31, as distributed with a general R package (seen); two bottles a treatment are its repeats",',
  '   "fish-as-printed": "GOST ISO 8586-2015 (ISO 8586:2012) Annex C, Table C.1 (seen); its tables C.2 and C.3 were not",',
  '   "fish-corrected": "the same with S3, assessor 2 at 4, 4, 2: the printed means need a sum of 10, the printed scores 4, 5, 2 give 11",',
  '   "blocks-of-three-of-seven": "Li 1964, Table 27.2, as quoted in the manual of a general R package (seen); blocks stand for panelists",',
  '   "vinyl-chloride": "Kuehl 2001, as quoted there (seen); blocks stand for panelists"',
  "  }",
  " },",
  ' "seenInSource": false,',
  ' "columns": {',
  '  "products_last": ["F", "numeratorDf", "denominatorDf", "p"], "panelists_last": ["F", "numeratorDf", "denominatorDf", "p"],',
  '  "own": ["n", "mean", "sd", "low", "high"], "contrasts": ["difference", "standardError", "low", "high", "p", "pHolm"]',
  " },",
  paste(vapply(sets, analyse, ""), collapse = ",\n"),
  "}"
), "values.json")
