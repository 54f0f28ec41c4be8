# Writes values.json beside this file: what base R says of the tasted studies of the demo, from the counts and
# marks of its invented scenario (typed here once more, not read from the program).
# Run: Rscript make.R (base R only; its version stands in values.json). Edit this script, never the values.

number <- function(x) trimws(formatC(x, digits = 17, format = "g"))
numbers <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")

# triangle: 14 of 24
right <- 14; people <- 24
triangle_p <- binom.test(right, people, 1 / 3, alternative = "greater")$p.value
needed <- min(which(pbinom(0:people, people, 1 / 3, lower.tail = FALSE) <= 0.05))  # index i: P(X > i - 1) = P(X >= i)
share <- binom.test(right, people, 1 / 3)$conf.int

# preference: new 31, current 19 of 50 who had one
preference <- binom.test(31, 50)

# the other choice tests
greater <- function(right, of, guess) number(binom.test(right, of, guess, alternative = "greater")$p.value)
each <- c(3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0)  # duo-trio: right of three, person by person
share_right <- sum(each) / 36
chi_square <- sum((each - 3 * share_right)^2 / (3 * share_right * (1 - share_right)))
spread_p <- pchisq(chi_square, 11, lower.tail = FALSE)

# line scale: one row a panelist; current, new, new + rest
rows <- matrix(c(
  58.4, 64.0, 67.1,  40.6, 40.8, 59.6,  51.4, 52.7, 64.1,  45.2, 57.4, 61.7,
  56.9, 63.9, 60.6,  53.7, 47.4, 80.3,  47.8, 70.0, 54.9,  48.7, 75.5, 55.8,
  28.5, 47.3, 51.9,  40.8, 56.0, 51.8,  52.8, 72.8, 62.9,  31.4, 51.2, 45.5), ncol = 3, byrow = TRUE)
marks <- data.frame(value = as.vector(rows), panelist = factor(rep(1:12, 3)), product = factor(rep(1:3, each = 12)))
fit <- lm(value ~ panelist + product, marks)
table <- anova(fit)["product", ]
error <- sqrt(2 * anova(fit)["Residuals", "Mean Sq"] / 12)
reach <- qt(0.975, df.residual(fit)) * error
means <- colMeans(rows)
contrast <- function(first, second) means[first] - means[second] + c(0, -reach, reach)


# liking: one diner after the other, nine steps of liking and five of just right (3 is just right), current and new
liked_current <- c(
  5, 7, 6, 6, 7, 7, 9, 6, 3, 6, 5, 4, 7, 4, 7, 5, 6, 4, 8, 7,
  7, 5, 4, 5, 6, 8, 4, 6, 6, 6, 4, 5, 5, 8, 6, 8, 6, 6, 7, 6,
  9, 6, 6, 8, 6, 6, 6, 9, 9, 7, 8, 6, 5, 6, 5, 7, 6, 6, 3, 7)
liked_new <- c(
  5, 9, 5, 8, 8, 6, 7, 6, 4, 6, 4, 6, 6, 5, 9, 5, 6, 7, 5, 7,
  9, 8, 4, 7, 7, 8, 6, 5, 7, 5, 5, 6, 7, 8, 7, 7, 6, 7, 8, 6,
  9, 8, 6, 9, 6, 8, 5, 7, 8, 9, 8, 9, 6, 7, 6, 7, 7, 7, 7, 8)
right_current <- c(
  3, 3, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 1, 2, 1, 2, 2, 3, 2,
  2, 1, 2, 2, 2, 3, 1, 3, 3, 1, 2, 3, 2, 2, 2, 3, 2, 2, 2, 2,
  2, 2, 2, 2, 3, 2, 2, 3, 2, 2, 2, 2, 2, 2, 2, 2, 2, 1, 2, 2)
right_new <- c(
  3, 3, 3, 2, 2, 3, 3, 2, 3, 2, 4, 2, 3, 1, 3, 2, 3, 4, 3, 3,
  3, 2, 2, 3, 4, 3, 3, 2, 3, 1, 4, 3, 2, 2, 3, 3, 3, 3, 4, 4,
  3, 4, 4, 3, 4, 4, 3, 3, 3, 3, 4, 3, 3, 3, 3, 3, 2, 2, 3, 3)
liked <- t.test(liked_new, liked_current, paired = TRUE)
drop <- function(liking, step) {
  low <- liking[step < 3]; right <- liking[step == 3]
  welch <- t.test(right, low)
  numbers(c(mean(low), mean(right), mean(right) - mean(low), welch$conf.int))
}

writeLines(c(
  "{",
  ' "id": "demo-by-r",',
  ' "title": "The tasted studies of the demo: tails, intervals, F test and contrasts",',
  paste0(' "source": { "what": "computed by make.R from the invented scenario: binom.test, pbinom, lm, anova", "madeBy": "', R.version.string, '" },'),
  ' "seenInSource": false,',
  paste0(' "triangle": { "pValue": ', number(triangle_p), ', "needed": ', needed, ', "correctShare": ', numbers(share), " },"),
  paste0(' "duoTrio": { "pValue": ', greater(22, 36, 1 / 2), ', "chiSquare": ', number(chi_square), ', "spreadP": ', number(spread_p), " },"),
  paste0(' "tetrad": { "pValue": ', greater(10, 18, 1 / 3), " },"),
  paste0(' "pairedDifference": { "pValue": ', greater(18, 24, 1 / 2), " },"),
  paste0(' "threeAlternative": { "pValue": ', greater(13, 24, 1 / 3), " },"),
  paste0(' "preference": { "pValue": ', number(preference$p.value), ', "share": ', numbers(c(preference$estimate, preference$conf.int)), " },"),
  paste0(' "line": { "fValue": ', number(table[["F value"]]), ', "pValue": ', number(table[["Pr(>F)"]]),
         ', "df": ', numbers(c(table[["Df"]], df.residual(fit))), ","),
  paste0('  "newOverCurrent": ', numbers(contrast(2, 1)), ', "restOverNew": ', numbers(contrast(3, 2)), " },"),
  paste0(' "liking": { "difference": ', numbers(c(liked$estimate, liked$conf.int)), ', "pValue": ', number(liked$p.value), ","),
  paste0('  "means": ', numbers(c(mean(liked_current), mean(liked_new))), ","),
  paste0('  "counts": [', numbers(tabulate(right_current, 5)), ", ", numbers(tabulate(right_new, 5)), "],"),
  paste0('  "little": [', drop(liked_current, right_current), ", ", drop(liked_new, right_new), "] }"),
  "}"), "values.json")
