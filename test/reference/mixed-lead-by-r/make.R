# Writes values.json (data included) beside this file: mixed models with further terms, by REML with Satterthwaite's degrees of
# freedom, and their comparisons judged together: Tukey, Dunnett, Holm. Marks of open data sets under the names that a panel has.
# Run: Rscript make.R (packages lme4, lmerTest, emmeans, jsonlite; their versions stand in values.json).
# R's own ptukey is wrong at few degrees of freedom, so tails are integrated here (integrate, uniroot); ptukey stands beside them.
# Edit this script, never the values.

suppressMessages({ library(lme4); library(lmerTest); library(emmeans); library(jsonlite) })

data(ham); data(TVbo); data(carrots); data(cake)
marks <- function(value, panelist, product, place = "", session = "", batch = "")
  data.frame(value, panelist = as.character(panelist), product = as.character(product), place = as.character(place), session = as.character(session), batch = as.character(batch))
without <- function(rows, every, from = 2) rows[-seq(from, nrow(rows), by = every), ]
few <- subset(ham, as.integer(Consumer) <= 30)
liking <- marks(few$Informed.liking, few$Consumer, paste0("p", few$Product), session = few$Information)
tv <- function(value) marks(value, TVbo$Assessor, TVbo$TVset, session = paste0("s", TVbo$Picture))
taste <- subset(carrots, as.integer(factor(Consumer)) <= 40 & Product %in% levels(factor(carrots$Product))[1:4])
bowls <- marks(taste$Preference, taste$Consumer, taste$Product)
sprays <- marks(OrchardSprays$decrease, OrchardSprays$rowpos, OrchardSprays$treatment, place = OrchardSprays$colpos)
baked <- subset(cake, replicate %in% c(1, 2, 3))
cakes <- marks(baked$angle, baked$temperature, baked$recipe, batch = paste0("b", baked$replicate))

sets <- list(
  "liking-with-gaps" = list(rows = without(without(liking, 5), 11), terms = "session", compare = "two-factors"),
  "liking-against-p1-with-gaps" = list(rows = without(liking, 4, 3), terms = "session", compare = "reference"),
  "saturation" = list(rows = tv(TVbo$Coloursaturation), terms = "session", compare = "all-pairs"),
  "saturation-with-gaps" = list(rows = without(tv(TVbo$Coloursaturation), 6), terms = "session", compare = "all-pairs"),
  "noise-with-gaps" = list(rows = without(tv(TVbo$Noise), 5, 3), terms = "session", compare = "all-pairs"),
  "bowls" = list(rows = bowls, terms = character(0), compare = "all-pairs"),
  "bowls-with-gaps" = list(rows = without(bowls, 5), terms = character(0), compare = "all-pairs"),
  "sprays" = list(rows = sprays, terms = "position", compare = "reference"),
  "sprays-with-gaps" = list(rows = without(sprays, 9, 4), terms = "position", compare = "reference"),
  "cakes-of-three-batches" = list(rows = cakes, terms = "batch", compare = "all-pairs"),
  "cakes-of-three-batches-with-gaps" = list(rows = without(cakes, 7), terms = "batch", compare = "all-pairs")
)

# over s, where s^2 is a chi-square over its degrees of freedom
over_deviation <- function(tail, df) integrate(function(u) vapply(u, function(x) {
  s <- exp(x); exp(log(2) + df / 2 * log(df / 2) - lgamma(df / 2) + df * x - df * s^2 / 2) * tail(s)
}, 0), log(1e-4), log(8), rel.tol = 1e-10, subdivisions = 2000L)$value
range_upper <- function(q, k, df) {
  tail <- function(w) k * integrate(function(z) dnorm(z) * (pnorm(z, lower.tail = FALSE)^(k - 1) - pmax(0, pnorm(z + w) - pnorm(z))^(k - 1)), -10, 10, rel.tol = 1e-11, subdivisions = 1000L)$value
  over_deviation(function(s) tail(q * s), df)
}
dunnett_upper <- function(d, loadings, df) {
  tail <- function(w) integrate(function(z) dnorm(z) * (1 - Reduce(`*`, lapply(loadings, function(l) {
    pnorm((w - l * z) / sqrt(1 - l^2)) - pnorm((-w - l * z) / sqrt(1 - l^2))
  }))), -10, 10, rel.tol = 1e-11, subdivisions = 1000L)$value
  over_deviation(function(s) tail(d * s), df)
}
critical <- function(upper) uniroot(function(x) upper(x) - 0.05, c(0.5, 60), tol = 1e-10)$root

# joint p and joint reach of each comparison
together <- function(kind, estimates, covariance, df, k) {
  errors <- sqrt(diag(covariance)); t <- abs(estimates / errors); own <- 2 * pt(-t, df)
  if (kind == "all-pairs") return(list(p = mapply(function(t, df) range_upper(sqrt(2) * t, k, df), t, df), reach = sapply(df, function(v) critical(function(q) range_upper(q, k, v)) / sqrt(2)), r = ptukey(sqrt(2) * t, k, df, lower.tail = FALSE)))
  if (kind == "reference") {
    # a single loading for each, from the least covariance of any two: errs on the safe side
    loadings <- sqrt(max(0, min(covariance[upper.tri(covariance)])) / diag(covariance))
    return(list(p = mapply(function(t, df) dunnett_upper(t, loadings, df), t, df), reach = sapply(df, function(v) critical(function(d) dunnett_upper(d, loadings, v))), r = rep(NA, length(t))))
  }
  adjusted <- p.adjust(own, "holm"); left <- pmin(0.05, pmax(0.05 / length(own), 0.05 * own / adjusted))
  list(p = adjusted, reach = qt(left / 2, df, lower.tail = FALSE), r = rep(NA, length(t)))
}

weights_of <- function(kind, products) {
  k <- length(products); unit <- function(i) as.numeric(seq_len(k) == i)
  if (kind == "two-factors") return(list("first-factor" = c(-1, -1, 1, 1) / 2, "second-factor" = c(-1, 1, -1, 1) / 2, interaction = c(1, -1, -1, 1)))
  pairs <- if (kind == "reference") lapply(2:k, function(i) c(i, 1)) else { list <- list(); for (j in 1:(k - 1)) for (i in (j + 1):k) list <- c(list, list(c(i, j))); list }
  setNames(lapply(pairs, function(p) unit(p[1]) - unit(p[2])), vapply(pairs, function(p) paste(products[p[1]], "-", products[p[2]]), ""))
}

analyse <- function(set) {
  rows <- set$rows
  products <- unique(rows$product); if (set$compare != "all-pairs" || any(grepl("^p", products))) products <- sort(products)
  rows$product <- factor(rows$product, levels = products)
  for (name in c("panelist", "place", "session", "batch")) rows[[name]] <- factor(rows[[name]])
  repeated <- any(table(rows$panelist, rows$product) > 1)
  fixed <- c("product", if ("session" %in% set$terms) "session", if ("position" %in% set$terms) "place")
  random <- c("panelist", if (repeated) "panelist:product", if ("batch" %in% set$terms) "product:batch")
  formula <- as.formula(paste("value ~", paste(c(fixed, paste0("(1 | ", random, ")")), collapse = " + ")))
  # the optimizer is run far beyond its defaults, and twice
  control <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.1, rhoend = 1e-11, maxfun = 1e5), calc.derivs = FALSE, check.conv.singular = "ignore")
  first <- lme4::lmer(formula, rows, control = control)
  fit <- lmerTest::lmer(formula, rows, control = control, start = getME(first, "theta"))
  tests <- as.data.frame(anova(fit, type = 3, ddf = "Satterthwaite"))
  test <- function(name) unlist(tests[name, c("F value", "NumDF", "DenDF", "Pr(>F)")], use.names = FALSE)
  means <- emmeans(fit, "product", lmer.df = "satterthwaite", lmerTest.limit = 1e5, data = rows)
  weights <- weights_of(set$compare, products)
  compared <- contrast(means, weights, adjust = "none"); shown <- as.data.frame(compared)
  joint <- together(set$compare, shown$estimate, as.matrix(vcov(compared)), shown$df, length(products))
  variances <- as.data.frame(VarCorr(fit)); spread <- function(name) { v <- variances$vcov[variances$grp == name]; if (length(v) == 0) NULL else v }
  estimated <- as.data.frame(means)
  list(
    balanced = length(unique(as.vector(table(rows$panelist, rows$product)))) == 1,
    products = products, terms = I(set$terms), compare = set$compare, singular = isSingular(fit, tol = 1e-6),
    product = test("product"), further = lapply(setNames(nm = setdiff(fixed, "product")), test),
    variances = list(panelist = spread("panelist"), panelistProduct = spread("panelist:product"), batch = spread("product:batch"), residual = sigma(fit)^2),
    means = unname(Map(c, estimated$emmean, estimated$SE, estimated$df)),
    contrasts = unname(Map(function(name, ...) list(name = name, figures = c(...)), names(weights), shown$estimate, shown$SE, shown$df, shown$p.value,
      joint$p, shown$estimate - joint$reach * shown$SE, shown$estimate + joint$reach * shown$SE)),
    ptukey = if (set$compare == "all-pairs") I(joint$r) else I(numeric(0)),
    rows = unname(apply(as.matrix(data.frame(lapply(rows[c("panelist", "product", "place", "session", "batch", "value")], as.character))), 1, identity, simplify = FALSE))
  )
}

versions <- vapply(c("lme4", "lmerTest", "emmeans"), function(name) paste(name, packageVersion(name)), "")
result <- list(
  id = "mixed-lead-by-r", title = "Mixed models with sessions, places and batches, and their comparisons judged together",
  source = list(
    what = "computed by make.R", madeBy = paste(c(R.version.string, versions), collapse = ", "),
    data = "liking: lmerTest ham, consumers 1 to 30; saturation, noise: lmerTest TVbo; bowls: lmerTest carrots, first 40 consumers and 4 products; sprays: datasets OrchardSprays (rows as panelists, columns as places); cakes: lme4 cake, replicates 1 to 3 (temperatures as panelists, replicates as batches); gaps cut by make.R"
  ),
  seenInSource = FALSE,
  columns = list(product = c("F", "numeratorDf", "denominatorDf", "p"), means = c("mean", "standardError", "df"), figures = c("difference", "standardError", "df", "p", "pTogether", "lowTogether", "highTogether"), rows = c("panelist", "product", "place", "session", "batch", "value")),
  sets = lapply(sets, analyse)
)
writeLines(toJSON(result, auto_unbox = TRUE, digits = I(17), null = "null"), "values.json")
