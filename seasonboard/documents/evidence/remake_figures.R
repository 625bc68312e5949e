# Re-makes the figures of figures.csv from the tables beside it: Rscript remake_figures.R
# Base R only; with the package survival installed, its log-rank and curves are printed as well.
# Exit status 0: every figure agrees to 1e-6; 1: at least one does not.

args <- commandArgs(trailingOnly = FALSE)
here <- dirname(sub("^--file=", "", args[grep("^--file=", args)]))
table_of <- function(name) read.csv(file.path(here, name), colClasses = "character", encoding = "UTF-8")
said <- read.csv(file.path(here, "figures.csv"), colClasses = "character", na.strings = "")
number <- function(name) as.numeric(said$value[said$figure == name])
z <- number("z")

cells <- function(rows, keys, event, group) {
  stratum <- do.call(paste, c(rows[keys], sep = "\r"))
  guarded <- rows[[group]] == "true"
  hurt <- rows[[event]] == "true"
  count <- function(x) as.vector(tapply(as.numeric(x), stratum, sum))
  data.frame(a = count(guarded & hurt), b = count(!guarded & hurt),
             t1 = count(guarded), t0 = count(!guarded))
}

mantel_haenszel <- function(c) {
  c <- c[c$a + c$b > 0 & c$t1 > 0 & c$t0 > 0, ]
  t <- c$t1 + c$t0
  above <- sum(c$a * c$t0 / t)
  under <- sum(c$b * c$t1 / t)
  if (under > 0 && above > 0 && nrow(c) > 1) {
    spread <- sum((c$a + c$b) * c$t1 * c$t0 / t^2)
    reach <- exp(z * sqrt(spread / (above * under)))
    return(c(above / under, above / under / reach, above / under * reach))
  }
  if (nrow(c) == 0) return(rep(NA_real_, 3))
  hurt <- sum(c$a)
  tail <- pnorm(-z)
  below <- function(log_ratio) {
    whole <- 1
    for (i in seq_len(nrow(c))) {
      share <- 1 / (1 + exp(-log_ratio) * c$t0[i] / c$t1[i])
      for (j in seq_len(c$a[i] + c$b[i]))
        whole <- c(whole * (1 - share), 0) + c(0, whole * share)
    }
    sum(whole[seq_len(hurt)]) + whole[hurt + 1] / 2
  }
  crossing <- function(wanted)
    exp(uniroot(function(x) below(x) - wanted, c(-50, 50), tol = 1e-12)$root)
  c(if (under > 0) above / under else NA,
    if (hurt > 0) crossing(1 - tail) else 0,
    if (hurt < sum(c$a + c$b)) crossing(tail) else NA)
}

log_rank <- function(c) {
  n <- c$t1 + c$t0
  d <- c$a + c$b
  gap <- sum(c$a - d * c$t1 / n)
  variance <- sum(ifelse(n > 1, d * (n - d) * c$t1 * c$t0 / (n^2 * pmax(n - 1, 1)), 0))
  if (variance > 0) gap^2 / variance else NA
}

mean_difference <- function(spells, keys, start, horizon) {
  c <- cells(spells, c(keys, "stop"), "event", "guarded")
  c$tick <- as.numeric(sub(".*\r", "", names(tapply(spells$stop, do.call(paste,
                           c(spells[c(keys, "stop")], sep = "\r")), length))))
  c <- c[c$t1 > 0 & c$t0 > 0 & c$tick >= start & c$tick < horizon, ]
  n <- c$t1 + c$t0
  at <- function(x) as.vector(tapply(x, c$tick, sum))
  weight <- at(c$t1 * c$t0 / n)
  left <- function(x) sum(cumprod(1 - at(x) / weight))
  left(c$a * c$t0 / n) - left(c$b * c$t1 / n)
}

worst <- 0
line <- function(name, ours) {
  board <- number(name)
  gap <- if (is.na(ours) && is.na(board)) 0 else abs(ours - board) / max(abs(board), 1)
  worst <<- max(worst, if (is.na(gap)) Inf else gap)
  cat(sprintf("%-44s %22.10g %22.10g\n", name, ours, board))
}

cat(sprintf("%-44s %22s %22s\n", "figure", "re-made", "the board said"))
compared <- table_of("exposures.csv")
compared <- compared[compared$set_aside == "", ]
ratios <- list("same session" = cells(compared, c("area", "session_number", "position_group"),
                                      "injured", "guarded"))
if (file.exists(file.path(here, "drawn_turns.csv")))
  ratios[["drawn turns"]] <- cells(table_of("drawn_turns.csv"), "stratum", "injured", "come")
for (name in names(ratios)) {
  made <- mantel_haenszel(ratios[[name]])
  parts <- paste(name, c("rate_ratio", "low", "high"), sep = ", ")
  for (i in 1:3) line(parts[i], made[i])
}
if (file.exists(file.path(here, "start_stop.csv"))) {
  spells <- table_of("start_stop.csv")
  for (name in unique(sub("^log-rank ", "", grep("^log-rank ", said$figure, value = TRUE)))) {
    strata <- said$strata[said$figure == paste("log-rank", name)]
    keys <- c(if (!is.na(strata)) strsplit(strata, " ")[[1]], "stop")
    line(paste("log-rank", name), log_rank(cells(spells, keys, "event", "guarded")))
  }
  for (name in grep("^more games", said$figure, value = TRUE)) {
    span <- as.numeric(regmatches(name, gregexpr("[0-9]+", name))[[1]])
    keys <- strsplit(said$strata[said$figure == name], " ")[[1]]
    line(name, mean_difference(spells, keys, span[1], span[2]))
  }
  for (group in c("guarded", "bare")) {
    own <- spells[(spells$guarded == "true") == (group == "guarded"), ]
    figures <- grep(paste0("^uninjured after .*, ", group, "$"), said$figure, value = TRUE)
    share <- 1
    for (name in figures) {
      tick <- sub("^uninjured after ([0-9]+),.*", "\\1", name)
      at <- own[own$stop == tick, ]
      share <- share * (1 - mean(at$event == "true"))
      line(name, share)
    }
  }
  if (requireNamespace("survival", quietly = TRUE)) {
    s <- survival::Surv(as.numeric(spells$start), as.numeric(spells$stop), spells$event == "true")
    print(survival::survfit(s ~ guarded, data = spells))
  }
}
cat(sprintf("Largest relative difference: %.1e\n", worst))
quit(status = as.integer(!(worst < 1e-6)))
