library(survival)
# A: 240 stays in one stage that end in stage 1 or 2, or are censored (made by formula, no randomness)
i <- 0:239
day <- 1 + (i * 7) %% 11 + (i %% 3 == 0) * ((i * 5) %% 4)
after <- c("b", "b", "c", "censor")[1 + (i * 3 + i %/% 7) %% 4]
a <- survfit(Surv(day, factor(after, levels = c("censor", "b", "c"))) ~ 1)
cat("A\n"); print(a$states); for (t in 1:10) { s <- summary(a, times = t)$pstate; cat(t, sprintf("%.9f", s), "\n") }
# B: every stay of 2, 3, 5, 5 days in a with every stay of 1, 2, 4 days in b, 20 times; c directly after 4 days, 60 times
g <- expand.grid(x = c(2, 3, 5, 5), y = c(1, 2, 4), k = 1:20)
n <- nrow(g)
d <- rbind(data.frame(id = 1:n, t1 = 0, t2 = g$x, to = "b"), data.frame(id = 1:n, t1 = g$x, t2 = g$x + g$y, to = "c"),
           data.frame(id = n + 1:60, t1 = 0, t2 = 4, to = "c"))
d <- d[order(d$id, d$t1), ]
d$to <- factor(d$to, levels = c("censor", "b", "c"))
b <- survfit(Surv(t1, t2, to) ~ 1, data = d, id = id)
cat("B\n"); print(b$states); for (t in 1:9) { s <- summary(b, times = t)$pstate; cat(t, sprintf("%.9f", s), "\n") }
cat(as.character(packageVersion("survival")), R.version.string, "\n")
