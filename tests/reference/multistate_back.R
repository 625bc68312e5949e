library(survival)
rows <- NULL
for (i in 0:119) {
  out <- 1 + (i * 7) %% 9
  first <- if (i %% 3 == 0) "guarded" else "bare"
  if (i %% 10 == 9) { rows <- rbind(rows, data.frame(id = i, from = "out", t1 = 0, t2 = out, to = "censor")); next }
  rows <- rbind(rows, data.frame(id = i, from = "out", t1 = 0, t2 = out, to = first))
  t <- out + 1 + (i * 5) %% 6
  nxt <- c("bare", "guarded", "hurt", "censor")[1 + (i * 3 + i %/% 7) %% 4]
  if (nxt == first) nxt <- "censor"
  rows <- rbind(rows, data.frame(id = i, from = first, t1 = out, t2 = t, to = nxt))
  if (nxt %in% c("bare", "guarded"))
    rows <- rbind(rows, data.frame(id = i, from = nxt, t1 = t, t2 = t + 2 + (i * 11) %% 5, to = c("hurt", "censor")[1 + i %% 2]))
}
states <- c("out", "bare", "guarded", "hurt")
rows$to <- factor(rows$to, levels = c("censor", states))
rows$from <- factor(rows$from, levels = states)
f <- survfit(Surv(t1, t2, to) ~ 1, data = rows, id = id, istate = from)
cat("# Shares of four states with passages either way, and robust errors, made by tests/reference/multistate_back.R\n# (R 4.2.2, survival 3.5.3): survfit(Surv(t1, t2, to) ~ 1, id = id, istate = from), 120 athletes by formula.\n")
cat("tick,out,bare,guarded,hurt,se_out,se_bare,se_guarded,se_hurt\n")
for (t in 1:18) { s <- summary(f, times = t); o <- match(states, f$states); cat(t, sprintf("%.9f", s$pstate[o]), sprintf("%.9f", s$std.err[o]), sep = ","); cat("\n") }
