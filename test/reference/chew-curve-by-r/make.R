# Writes data.csv and values.json beside this file: what base R says of marks of one property at several moments of
# one chew. Seven panelists, three products, two repeats, moments at 0, 10 and 25 seconds; in set "gaps" some marks are
# missing; set "demo" is that of the invented scenario (no area: its last moment has no seconds). The other marks are
# drawn from a seed. Change and area are one value a chew; repeats are averaged before lm.
# Run: Rscript make.R (base R only; its version stands in values.json). Edit this script, never the values.

number <- function(x) trimws(formatC(x, digits = 17, format = "g"))
numbers <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
seconds <- c(0, 10, 25)
products <- c("current", "new", "rested")

set.seed(20261126)
marks <- expand.grid(moment = 1:3, `repeat` = 1:2, product = products, panelist = paste0("p", 1:7), stringsAsFactors = FALSE)
level <- c(current = 60, new = 62, rested = 66)[marks$product]
slope <- c(current = -14, new = -6, rested = -9)[marks$product]
person <- rnorm(7, 0, 8)[as.integer(sub("p", "", marks$panelist))]
marks$value <- round(pmin(100, pmax(0, level + person + slope * (marks$moment - 1) + rnorm(nrow(marks), 0, 6))), 1)
marks$set <- "whole"
gaps <- marks
gaps$set <- "gaps"
# p2 never marked the first moment of "new"; p5 lacks the last one of a repeat of "rested"; p7 lacks a middle one
missing <- with(gaps, (panelist == "p2" & product == "new" & moment == 1) |
  (panelist == "p5" & product == "rested" & moment == 3 & `repeat` == 2) |
  (panelist == "p7" & product == "current" & moment == 2))
gaps$value[missing] <- NA
# the demo's study over the chew, typed here once more: a row a panelist; current, new, new + rest, each at three moments
demo <- marks[marks$`repeat` == 1, ]
demo <- rbind(demo, within(demo[demo$panelist %in% paste0("p", 1:5), ], panelist <- sub("p", "q", panelist)))
demo <- demo[order(demo$panelist, match(demo$product, products), demo$moment), ]
demo$set <- "demo"
demo$value <- c(
58.2, 44.4, 35.4, 51.2, 52.6, 46.4, 53.1, 59.8, 34.8,
  61.4, 47.2, 39.0, 52.8, 52.1, 33.0, 55.1, 50.9, 47.4,
  55.9, 54.4, 43.6, 66.1, 59.6, 43.8, 80.3, 72.0, 72.2,
  45.8, 40.2, 33.5, 61.4, 49.4, 40.4, 62.9, 53.9, 48.4,
  60.9, 57.1, 41.7, 60.5, 58.1, 42.8, 62.8, 58.5, 53.3,
  59.1, 37.2, 14.9, 51.3, 39.8, 26.0, 46.9, 40.7, 36.9,
  53.4, 47.2, 38.5, 64.7, 63.7, 54.8, 57.0, 52.9, 37.4,
  54.0, 51.0, 30.0, 52.5, 54.2, 40.0, 69.6, 72.7, 49.5,
  40.5, 31.2, 19.8, 29.8, 35.0, 30.9, 44.6, 37.5, 30.0,
  45.9, 29.2, 11.1, 31.7, 39.6, 35.6, 40.7, 33.3, 31.6,
  45.3, 32.7, 20.1, 50.6, 40.5, 27.1, 50.1, 41.6, 36.9,
  58.1, 49.3, 32.4, 57.2, 55.5, 43.2, 63.8, 50.2, 51.6)
marks <- rbind(marks, gaps, demo)[, c("set", "panelist", "product", "repeat", "moment", "value")]
write.csv(marks[marks$set != "demo", ], "data.csv", row.names = FALSE, quote = FALSE, na = "")

blocks <- function(chews, value) {
  chews$value <- value
  cells <- aggregate(value ~ panelist + product, chews, mean)
  cells$panelist <- factor(cells$panelist)
  cells$product <- factor(cells$product, levels = products)
  fit <- lm(value ~ panelist + product, cells)
  table <- anova(fit)
  df <- df.residual(fit)
  pairs <- list(c(2, 1), c(3, 1), c(3, 2))
  contrasts <- sapply(pairs, function(pair) {
    weight <- function(i) as.numeric(names(coef(fit)) == paste0("product", products[i]))
    w <- weight(pair[1]) - weight(pair[2])
    difference <- sum(w * coef(fit))
    reach <- qt(0.975, df) * sqrt(drop(t(w) %*% vcov(fit) %*% w))
    numbers(c(difference, difference - reach, difference + reach))
  })
  paste0('{ "f": ', numbers(c(table["product", "F value"], table["product", "Df"], df, table["product", "Pr(>F)"])),
    ',\n   "means": ', numbers(tapply(cells$value, cells$product, mean)),
    ',\n   "contrasts": [', paste(contrasts, collapse = ", "), "] }")
}

analyse <- function(name) {
  own <- marks[marks$set == name, ]
  chews <- reshape(own, idvar = c("panelist", "product", "repeat"), timevar = "moment", direction = "wide")
  change <- chews$value.3 - chews$value.1
  area <- (seconds[2] - seconds[1]) * (chews$value.1 + chews$value.2) / 2 +
    (seconds[3] - seconds[2]) * (chews$value.2 + chews$value.3) / 2
  cells <- aggregate(value ~ panelist + product + moment, own, mean)
  enough <- names(which(table(cells$panelist) == 9))
  cells <- cells[cells$panelist %in% enough, ]
  for (column in c("panelist", "product", "moment")) cells[[column]] <- factor(cells[[column]])
  strata <- summary(aov(value ~ product * moment + Error(panelist / (product * moment)), cells))
  test <- strata[["Error: panelist:product:moment"]][[1]]
  paste0(' "', name, '": {\n  "change": ', blocks(chews, change), if (name != "demo") paste0(',\n  "area": ', blocks(chews, area)),
    ',\n  "interaction": ', numbers(c(test[1, "F value"], test[1, "Df"], test[2, "Df"], test[1, "Pr(>F)"])),
    ', "interactionPeople": ', length(enough), "\n }")
}

writeLines(c(
  "{",
  ' "id": "chew-curve-by-r",',
  ' "title": "One property over the chew: change, area under the marks, and product by moment",',
  paste0(' "source": { "what": "computed by make.R: lm, anova, aov with Error strata", "madeBy": "', R.version.string, '" },'),
  ' "seenInSource": false,',
  paste0(analyse("whole"), ","),
  paste0(analyse("gaps"), ","),
  paste0(' "demoMoments": {\n', paste(sapply(1:3, function(at) {
    own <- marks[marks$set == "demo" & marks$moment == at, ]
    paste0('  "', c("first", "later", "end")[at], '": ', blocks(own, own$value))
  }), collapse = ",\n"), "\n },"),
  analyse("demo"),
  "}"), "values.json")
