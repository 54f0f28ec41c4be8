# Writes values.json beside this file: what base R's t.test says of the invented scenario's weighing ledger (four batches
# of two processes) and of its chewed portions (eight people, two products, three repeats). A ratio of means with its
# interval: all ratios at which t.test(second - ratio * first), paired or after Welch, has p above 0.05, ends by uniroot.
# Run: Rscript make.R (base R only; its version stands in values.json). Edit this script, never the values.

number <- function(x) trimws(formatC(x, digits = 17, format = "g"))
numbers <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")

steps <- c("raw", "cooked", "rested", "held")
grams <- list(
  current = rbind(c(1497.0, 1180.3, 1162.9, 1129.1), c(1497.6, 1185.6, 1169.1, 1141.6),
    c(1504.7, 1183.2, 1164.5, 1128.2), c(1503.4, 1174.9, 1157.8, 1118.4)),
  new = rbind(c(1503.3, 1284.1, 1271.2, 1227.8), c(1501.9, 1298.5, 1279.8, 1237.6),
    c(1491.5, 1291.1, 1274.5, 1222.5), c(1507.8, 1270.8, 1255.3, 1218.9))
)
own <- function(mass, step) 100 * (mass[, step - 1] - mass[, step]) / mass[, step - 1]
ofRaw <- function(mass, step) 100 * (mass[, 1] - mass[, step]) / mass[, 1]
kept <- function(mass, step) 100 * mass[, step] / mass[, 1]

gains <- list(
  current = rbind(c(26.9, 23.7, 24.8), c(22.6, 24.8, 25.0), c(27.6, 26.9, 26.9), c(26.5, 22.6, 27.3),
    c(24.8, 28.6, 25.1), c(25.8, 19.9, 24.9), c(24.4, 24.5, 27.0), c(25.4, 29.1, 25.0)),
  new = rbind(c(20.6, 19.5, 21.7), c(21.1, 23.0, 23.5), c(27.3, 25.4, 24.8), c(19.3, 22.3, 20.8),
    c(24.2, 24.3, 27.6), c(21.1, 18.4, 22.9), c(23.1, 23.5, 22.9), c(19.9, 21.8, 20.4))
)

# mean and interval of one group
alone <- function(x) { t <- t.test(x); numbers(c(mean(x), t$conf.int)) }
# second less first: estimate, low, high, standard error, df, t, p
less <- function(first, second, paired = FALSE) {
  t <- t.test(second, first, paired = paired)
  estimate <- if (paired) mean(second - first) else mean(second) - mean(first)
  numbers(c(estimate, t$conf.int, t$stderr, t$parameter, t$statistic, t$p.value))
}
# second over first: estimate, low, high; "null" where the interval has no end
over <- function(first, second, paired = FALSE) {
  estimate <- mean(second) / mean(first)
  if (t.test(first)$p.value > 0.05) return(paste0("[", number(estimate), "]"))
  above <- function(ratio) t.test(second, ratio * first, paired = paired)$p.value - 0.05
  ends <- sapply(c(-1, 1), function(side) {
    reach <- 0.01
    while (above(estimate + side * reach) > 0) reach <- 2 * reach
    uniroot(above, sort(c(estimate, estimate + side * reach)), tol = 1e-14)$root
  })
  numbers(c(estimate, ends))
}

ledger <- sapply(2:4, function(step) {
  parts <- lapply(list(own = own, ofRaw = ofRaw), function(loss) lapply(grams, loss, step))
  sprintf('  "%s": { "own": { "current": %s, "new": %s, "difference": %s },\n    "ofRaw": { "current": %s, "new": %s, "difference": %s, "paired": %s },\n    "ratio": %s, "ratioPaired": %s }',
    steps[step], alone(parts$own$current), alone(parts$own$new), less(parts$own$current, parts$own$new),
    alone(parts$ofRaw$current), alone(parts$ofRaw$new), less(parts$ofRaw$current, parts$ofRaw$new),
    less(parts$ofRaw$current, parts$ofRaw$new, TRUE),
    over(kept(grams$current, step), kept(grams$new, step)), over(kept(grams$current, step), kept(grams$new, step), TRUE))
})
people <- lapply(gains, rowMeans)
# a first mean near 0: its interval holds 0, so that no ratio has an end; and one that is just far enough from 0
near <- list(first = c(2.1, -1.4, 0.9, 3.0, -0.8, 1.7), far = c(2.1, 0.4, 0.9, 3.0, 0.2, 1.7), second = c(4.0, 1.2, 2.2, 5.1, 0.7, 2.9))

writeLines(c(
  "{",
  ' "id": "mass-by-r",',
  ' "title": "Losses of mass by batch, and gains of chewed portions by person: means, differences and ratios",',
  paste0(' "source": { "what": "computed by make.R: t.test, its p-value inverted by uniroot", "madeBy": "', R.version.string, '" },'),
  ' "seenInSource": false,',
  ' "columns": ["means: mean, low, high", "differences, second less first: estimate, low, high, standardError, df, t, p", "ratios: estimate, low, high"],',
  ' "ledger": {', paste(ledger, collapse = ",\n"), " },",
  sprintf(' "chew": { "current": %s, "new": %s,\n  "difference": %s, "ratio": %s,', alone(people$current), alone(people$new),
    less(people$current, people$new, TRUE), over(people$current, people$new, TRUE)),
  sprintf('  "firstPersonAlone": %s, "firstPersonRatio": %s },', less(gains$current[1, ], gains$new[1, ]), over(gains$current[1, ], gains$new[1, ])),
  sprintf(' "nearZero": { "open": %s, "closed": %s, "closedPaired": %s }', over(near$first, near$second), over(near$far, near$second), over(near$far, near$second, TRUE)),
  "}"), "values.json")
