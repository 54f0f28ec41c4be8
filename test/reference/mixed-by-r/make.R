# Writes values.json (data included) beside this file: mixed models by REML, Satterthwaite's degrees of freedom.
# Run: Rscript make.R (packages lme4, lmerTest, emmeans, jsonlite; their versions stand in values.json).
# Edit this script, never the values.

suppressMessages({ library(lme4); library(lmerTest); library(emmeans); library(jsonlite) })

data(sleepstudy); data(Penicillin); data(cake); data(ham)
days <- data.frame(value = sleepstudy$Reaction, day = paste0("d", sleepstudy$Days), person = sleepstudy$Subject)
plates <- data.frame(value = Penicillin$diameter, sample = Penicillin$sample, plate = Penicillin$plate)
cakes <- data.frame(value = cake$angle, recipe = cake$recipe, temperature = paste0("t", cake$temperature), replicate = cake$replicate)
liking <- data.frame(value = ham$Informed.liking, product = paste0("p", ham$Product), told = paste0("i", ham$Information), person = ham$Consumer)
without <- function(rows, every, from = 2) rows[-seq(from, nrow(rows), by = every), ]

sets <- list(
  days = list(rows = days, fixed = list("day"), random = list("person")),
  "days-with-gaps" = list(rows = without(days, 7), fixed = list("day"), random = list("person")),
  plates = list(rows = plates, fixed = list("sample"), random = list("plate")),
  "plates-with-gaps" = list(rows = without(plates, 5), fixed = list("sample"), random = list("plate")),
  "cakes-without-interaction-with-gaps" = list(rows = without(cakes, 7), fixed = list("recipe", "temperature"), random = list("replicate", c("recipe", "replicate"))),
  cakes = list(rows = cakes, fixed = list("recipe", "temperature", c("recipe", "temperature")), random = list(c("recipe", "replicate"))),
  liking = list(rows = liking, fixed = list("product", "told", c("product", "told")), random = list("person", c("person", "product"))),
  "liking-with-gaps" = list(rows = without(without(liking, 5), 11), fixed = list("product", "told"), random = list("person", c("person", "product")))
)

analyse <- function(set) {
  rows <- set$rows
  factors <- setdiff(names(rows), "value")
  for (name in factors) rows[[name]] <- factor(rows[[name]], levels = unique(as.character(set$order[[name]] %||% rows[[name]])))
  joined <- function(terms) vapply(terms, paste, "", collapse = ":")
  formula <- as.formula(paste("value ~", paste(c(joined(set$fixed), paste0("(1 | ", joined(set$random), ")")), collapse = " + ")))
  # the optimizer is run far beyond its defaults, and twice
  control <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.1, rhoend = 1e-11, maxfun = 1e5), calc.derivs = FALSE, check.conv.singular = "ignore")
  first <- lme4::lmer(formula, rows, control = control)
  fit <- lmerTest::lmer(formula, rows, control = control, start = getME(first, "theta"))
  tests <- as.data.frame(anova(fit, type = 3, ddf = "Satterthwaite"))
  main <- set$fixed[[1]][1]
  means <- emmeans(fit, main, lmer.df = "satterthwaite", lmerTest.limit = 1e5, data = rows)
  pairs <- as.data.frame(contrast(means, "revpairwise", adjust = "none"))
  shown <- as.data.frame(means)
  variances <- as.data.frame(VarCorr(fit))
  of_term <- function(name) variances$vcov[variances$grp == name]
  list(
    factors = lapply(setNames(nm = unique(unlist(set$fixed))), function(name) levels(rows[[name]])),
    fixed = lapply(set$fixed, I), random = lapply(set$random, I),
    tests = lapply(seq_len(nrow(tests)), function(i) unlist(tests[i, c("F value", "NumDF", "DenDF")], use.names = FALSE)),
    variances = I(vapply(joined(set$random), of_term, 0)), residual = sigma(fit)^2,
    deviance = -2 * as.numeric(logLik(fit, REML = TRUE)),
    means = unname(Map(c, shown$emmean, shown$SE, shown$df)),
    pairs = unname(Map(function(name, ...) list(name = name, figures = c(...)), as.character(pairs$contrast), pairs$estimate, pairs$SE, pairs$df)),
    rows = apply(as.matrix(data.frame(lapply(rows, as.character))), 1, function(row) as.list(row))
  )
}
`%||%` <- function(a, b) if (is.null(a)) b else a

versions <- vapply(c("lme4", "lmerTest", "emmeans"), function(name) paste(name, packageVersion(name)), "")
result <- c(
  list(
    id = "mixed-by-r", title = "Mixed models by REML with Satterthwaite's degrees of freedom",
    source = list(
      what = "computed by make.R", madeBy = paste(c(R.version.string, versions), collapse = ", "),
      data = "days: lme4 sleepstudy; plates: lme4 Penicillin; cakes: lme4 cake; liking: lmerTest ham; gaps cut by make.R"
    ),
    seenInSource = FALSE,
    columns = list(tests = c("F", "numeratorDf", "denominatorDf"), means = c("mean", "standardError", "df"), figures = c("difference", "standardError", "df"))
  ),
  list(sets = lapply(sets, analyse))
)
writeLines(toJSON(result, auto_unbox = TRUE, digits = I(17), pretty = FALSE), "values.json")
