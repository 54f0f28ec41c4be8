# Writes values.json beside this file: Friedman's chi-square by R's friedman.test, ties corrected. Run: Rscript make.R
rows_of <- function(texts) do.call(rbind, lapply(strsplit(texts, " "), as.numeric))
cases <- list(
  # the demo's ranking: current, new, new + rest, held; 1 = least juicy
  list("demo", rows_of(c("1 3 4 2", "2 3 4 1", "4 2 3 1", "2 4 3 1", "2 3 4 1", "1 2 3 4", "2 4 1 3", "1 2 3 4",
    "1 4 2 3", "2 3 4 1", "1 3 4 2", "1 3 4 2"))),
  list("ties in some rows", rows_of(c("1 2.5 2.5", "1 2 3", "1.5 1.5 3", "2 2 2", "1 3 2", "1 2 3", "2 1 3"))),
  list("five products, shared places", rows_of(c("1 2 3.5 3.5 5", "2 1 3 5 4", "1 2.5 2.5 4 5", "3 1 2 4.5 4.5",
    "1 2 3 4 5", "2 1 4 3 5", "1 3 2 5 4", "1.5 1.5 3 4 5"))),
  list("two products", rows_of(c("1 2", "1 2", "2 1", "1 2", "1 2", "1 2", "2 1")))
)
number <- function(values) paste(format(values, digits = 17, trim = TRUE), collapse = ", ")
row <- function(case) {
  found <- friedman.test(case[[2]])
  ranks <- paste(apply(case[[2]], 1, function(one) sprintf("[%s]", paste(one, collapse = ", "))), collapse = ", ")
  sprintf('  { "name": "%s", "ranks": [%s], "chiSquare": %s, "df": %d, "pValue": %s }', case[[1]], ranks,
    number(unname(found$statistic)), as.integer(found$parameter), number(found$p.value))
}
writeLines(c(
  "{",
  ' "id": "friedman-by-r",',
  ' "title": "Friedman\'s chi-square with ties",',
  sprintf(' "source": { "what": "computed by make.R, friedman.test", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "rows": [',
  paste(vapply(cases, row, ""), collapse = ",\n"),
  " ]",
  "}"
), "values.json")
