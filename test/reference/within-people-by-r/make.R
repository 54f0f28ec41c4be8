# Writes values.json beside this file: four counts a person, held against each other within people by mantelhaen.test,
# exact; the common odds ratio's bound by R's uniroot (about four digits). Run: Rscript make.R
cases <- list(
  rbind(c(2, 2, 0, 2), c(1, 2, 1, 2), c(2, 2, 1, 2), c(1, 2, 0, 2), c(2, 2, 2, 2), c(0, 2, 0, 2), c(2, 2, 1, 2), c(1, 2, 0, 2)),
  rbind(c(3, 4, 1, 4), c(4, 4, 3, 4), c(2, 4, 0, 4), c(3, 4, 2, 4), c(1, 4, 1, 4), c(4, 4, 2, 4)),
  rbind(c(1, 3, 2, 3), c(0, 3, 1, 3), c(2, 3, 2, 3), c(1, 3, 1, 3), c(3, 3, 3, 3)),
  rbind(c(5, 6, 1, 5), c(2, 3, 1, 4), c(1, 1, 0, 2), c(6, 6, 2, 6))
)
row <- function(people) {
  table <- array(apply(people, 1, function(x) c(x[1], x[2] - x[1], x[3], x[4] - x[3])), c(2, 2, nrow(people)))
  test <- mantelhaen.test(table, alternative = "greater", exact = TRUE)
  sprintf('  { "people": [%s], "p": %s, "odds": [%s, %s] }',
    paste(apply(people, 1, function(x) sprintf("[%s]", paste(x, collapse = ", "))), collapse = ", "),
    format(test$p.value, digits = 15), format(unname(test$estimate), digits = 10), format(test$conf.int[1], digits = 10))
}
writeLines(c(
  "{",
  ' "id": "within-people-by-r",',
  ' "title": "Two kinds of trays held against each other within people",',
  sprintf(' "source": { "what": "computed by make.R: mantelhaen.test, exact, one-sided", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "columns": ["people: unlike told, unlike, like told, like", "odds: estimate, lower at 95 %"],',
  ' "rows": [', paste(vapply(cases, row, ""), collapse = ",\n"), " ]",
  "}"
), "values.json")
