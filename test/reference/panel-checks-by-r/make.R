# Panelist by panelist, from the marks of ../blocks-by-r/data.csv: range of the product means, correlation with the means of
# the others (cor), and a one-way analysis of variance of the panelist's own marks (anova of lm).
# Run here: Rscript make.R > values.json
options(digits = 17)
rows <- read.csv("../blocks-by-r/data.csv", stringsAsFactors = FALSE)
number <- function(x) if (is.null(x) || is.na(x)) "null" else format(x, digits = 17)
one <- function(data, who) {
  own <- data[data$panelist == who, ]
  mine <- tapply(own$value, own$product, mean)
  cells <- aggregate(value ~ panelist + product, data[data$panelist != who, ], mean)
  others <- tapply(cells$value, cells$product, mean)
  shared <- intersect(names(mine), names(others))
  agreement <- if (length(shared) < 3) NA else cor(mine[shared], others[shared])
  repeats <- nrow(own) > length(mine)
  table <- if (repeats) anova(lm(value ~ factor(product), own)) else NULL
  values <- c(number(max(mine) - min(mine)), number(agreement),
    number(if (repeats) sqrt(table[["Mean Sq"]][2]) else NA),
    number(if (repeats) table[["F value"]][1] else NA), number(if (repeats) table[["Pr(>F)"]][1] else NA))
  sprintf("    [\"%s\", %s]", who, paste(values, collapse = ", "))
}
cat("{\n  \"by\": \"", R.version.string, "\",\n  \"columns\": [\"panelist\", \"range\", \"agreement\", \"repeatDeviation\", \"F\", \"p\"],\n", sep = "")
sets <- c("fish-corrected", "wine", "juiciness")
parts <- sapply(sets, function(set) {
  data <- rows[rows[[1]] == set, ]; names(data) <- c("set", "panelist", "product", "value")
  sprintf("  \"%s\": [\n%s\n  ]", set, paste(sapply(unique(data$panelist), function(who) one(data, who)), collapse = ",\n"))
})
cat(paste(parts, collapse = ",\n"), "\n}\n", sep = "")
