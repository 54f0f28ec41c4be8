# Goal 11: what a script would do for 10,000 panelists and 6 products: an order and six different three-digit codes each,
# by loops over `sample`. Reads one line at a time: a number of passes; writes the seconds they took.
set.seed(11)
panelists <- 10000
once <- function() {
  orders <- matrix(0L, panelists, 6)
  codes <- matrix(0L, panelists, 6)
  for (panelist in seq_len(panelists)) orders[panelist, ] <- sample(6L)
  for (panelist in seq_len(panelists)) codes[panelist, ] <- sample(100:999, 6L)
  list(orders, codes)
}
input <- file("stdin", "r")
while (length(line <- readLines(input, n = 1)) > 0) {
  if (line == "numbers") {
    cat(panelists, "\n", sep = "")
  } else {
    start <- proc.time()[["elapsed"]]
    for (pass in seq_len(as.integer(line))) once()
    cat(proc.time()[["elapsed"]] - start, "\n", sep = "")
  }
  flush(stdout())
}
