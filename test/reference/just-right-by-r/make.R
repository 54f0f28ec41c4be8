# Writes data.csv and values.json beside this file: just-about-right answers on five steps (3 is just right) with a liking
# of nine steps from the same people, drawn from a seed; the shares with binom.test, the drops of liking with t.test
# (Welch) between those who said just right and those on one side. A few people gave no liking.
# Run: Rscript make.R (base R only; its version stands in values.json). Edit this script, never the values.

number <- function(x) trimws(formatC(x, digits = 17, format = "g"))
numbers <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")

set.seed(20261126)
people <- 40
answers <- do.call(rbind, lapply(c("current", "new"), function(product) {
  chances <- if (product == "current") c(0.15, 0.35, 0.35, 0.1, 0.05) else c(0.03, 0.07, 0.5, 0.3, 0.1)
  step <- sample(1:5, people, TRUE, chances)
  liking <- pmin(9, pmax(1, round(7 - 1.1 * abs(step - 3) + rnorm(people, 0, 1.2))))
  liking[sample(people, 2)] <- NA
  data.frame(panelist = paste0("p", 1:people), product, step, liking)
}))
write.csv(answers, "data.csv", row.names = FALSE, quote = FALSE, na = "")

side_of <- function(step) ifelse(step < 3, "little", ifelse(step > 3, "much", "right"))
share <- function(count) numbers(c(count / people, binom.test(count, people)$conf.int))
drop <- function(own, side) {
  test <- t.test(own$liking[side_of(own$step) == "right"], own$liking[side_of(own$step) == side])
  numbers(c(test$estimate, test$estimate[1] - test$estimate[2], test$conf.int, test$parameter, test$p.value))
}
product <- function(name) {
  own <- answers[answers$product == name, ]
  counts <- table(factor(side_of(own$step), c("little", "right", "much")))
  paste0(' "', name, '": {\n  "counts": ', numbers(table(factor(own$step, 1:5))),
    ',\n  "shares": [', paste(sapply(counts, share), collapse = ", "), ']',
    ',\n  "little": ', drop(own, "little"), ',\n  "much": ', drop(own, "much"), "\n }")
}
writeLines(c(
  "{",
  ' "id": "just-right-by-r",',
  ' "title": "Just-about-right shares with exact intervals, and drops of liking (Welch)",',
  paste0(' "source": { "what": "computed by make.R: binom.test, t.test", "madeBy": "', R.version.string, '" },'),
  ' "seenInSource": false,',
  paste0(product("current"), ","),
  product("new"),
  "}"), "values.json")
