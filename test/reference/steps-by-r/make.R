# Writes data.csv and values.json beside this file: liking in steps, two open data sets of lmerTest. ham: 81 consumers, four
# hams, liking of nine steps, tasted without information. carrots: the first three of twelve carrots, preference of seven
# steps, of the 103 consumers who left none of them out. How often each step was chosen (table), means, the block F test
# (anova of lm), pairs after Tukey (emmeans), Friedman's test with ties (friedman.test).
# Run: Rscript make.R (packages lmerTest for the data, emmeans, jsonlite; versions stand in values.json).
# Edit this script, never the values.

suppressMessages({ library(lmerTest); library(emmeans); library(jsonlite) })
data(ham); data(carrots)
told <- ham[ham$Information == "1", ]
kinds <- levels(carrots$Product)[1:3]
some <- carrots[carrots$Product %in% kinds, ]
silent <- unique(some$Consumer[is.na(some$Preference)])
some <- some[!some$Consumer %in% silent, ]
sets <- list(
  ham = data.frame(panelist = as.character(told$Consumer), product = paste0("ham ", told$Product), value = told$Informed.liking, steps = 9),
  carrots = data.frame(panelist = as.character(some$Consumer), product = as.character(some$Product), value = some$Preference, steps = 7)
)

rows <- do.call(rbind, lapply(names(sets), function(name) {
  set <- sets[[name]]
  data.frame(panelist = set$panelist, product = set$product, attribute = name, scale = paste("liking", set$steps), value = set$value)
}))
write.csv(rows, "data.csv", row.names = FALSE, quote = FALSE)

analyse <- function(set) {
  products <- unique(set$product)
  set$product <- factor(set$product, levels = products)
  set$panelist <- factor(set$panelist, levels = unique(set$panelist))
  steps <- set$steps[1]
  fit <- lm(value ~ panelist + product, set)
  test <- anova(fit)["product", ]
  pairs <- contrast(emmeans(fit, "product"), "revpairwise", adjust = "tukey", infer = TRUE)
  shown <- as.data.frame(pairs)
  ranks <- friedman.test(value ~ product | panelist, set)
  list(
    products = products,
    counts = lapply(products, function(product) I(as.vector(table(factor(set$value[set$product == product], 1:steps))))),
    means = as.vector(tapply(set$value, set$product, mean)),
    test = c(test[["F value"]], test[["Df"]], anova(fit)["Residuals", "Df"], test[["Pr(>F)"]]),
    pairs = unname(Map(function(name, ...) list(name = name, figures = c(...)), as.character(shown$contrast), shown$estimate, shown$lower.CL, shown$upper.CL, shown$p.value)),
    friedman = unname(c(ranks$statistic, ranks$parameter, ranks$p.value))
  )
}
versions <- vapply(c("lmerTest", "emmeans"), function(name) paste(name, packageVersion(name)), "")
writeLines(toJSON(c(
  list(
    id = "steps-by-r", title = "Liking in steps: counts, means, block F test, pairs after Tukey, Friedman's test",
    source = list(what = "computed by make.R", madeBy = paste(c(R.version.string, versions), collapse = ", "), data = "lmerTest ham and carrots"),
    seenInSource = FALSE,
    columns = list(test = c("F", "numeratorDf", "denominatorDf", "p"), figures = c("difference", "low", "high", "p"), friedman = c("chiSquare", "df", "p"))
  ),
  list(sets = lapply(sets, analyse))
), auto_unbox = TRUE, digits = I(17), pretty = FALSE), "values.json")
