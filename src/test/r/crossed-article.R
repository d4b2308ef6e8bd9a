# Makes the simulated article that crossed.R fits. Invented data, known truth, fixed seed.
#
#   Rscript src/test/r/crossed-article.R
#
# Writes src/test/resources/org/padtrue/mixed/crossed-article.csv: one row per measured placement,
# nominal x, y, theta in the panel frame (mm, degrees), deviations dx, dy (mm), dr (degrees).
set.seed(20260217, kind = "Mersenne-Twister", normal.kind = "Inversion")
perBoard <- 22
place <- data.frame(
  ref = paste0("R", 1:perBoard),
  part = paste0("T", c(1:7, sample(1:7, perBoard - 7, TRUE, c(6, 5, 4, 3, 2, 1, 1)))),
  nozzle = paste0("N", sample(1:4, perBoard, TRUE)),
  bx = round(runif(perBoard, 2, 46), 2), by = round(runif(perBoard, 2, 36), 2),
  theta = 90 * sample(0:3, perBoard, TRUE))
place$theta[place$theta == 270] <- -90
partX <- rnorm(7, 0, 0.04); partY <- rnorm(7, 0, 0.03); partR <- rnorm(7, 0, 0.4)
nozX <- rnorm(4, 0, 0.02); nozY <- rnorm(4, 0, 0.025); nozR <- rnorm(4, 0, 0.2)
boardX <- rnorm(6, 0, 0.02); boardY <- rnorm(6, 0, 0.015)
rows <- do.call(rbind, lapply(1:6, function(b) {
  column <- (b - 1) %% 3 + 1; row <- (b - 1) %/% 3 + 1
  cbind(place, column = column, row = row, board = b)
}))
rows <- rows[sort(sample(nrow(rows), nrow(rows) - 9)), ]   # nine were not measured
rows$x <- rows$bx + 50 * (rows$column - 1); rows$y <- rows$by + 40 * (rows$row - 1)
n <- nrow(rows); rad <- rows$theta * pi / 180; c <- cos(rad); s <- sin(rad)
k <- as.integer(sub("T", "", rows$part)); l <- as.integer(sub("N", "", rows$nozzle))
ox <- partX[k] + nozX[l]; oy <- partY[k] + nozY[l]; phi <- 0.04 * pi / 180
rows$dx <- 0.05 + 3e-4 * rows$x - phi * rows$y + boardX[rows$board] + c * ox - s * oy + rnorm(n, 0, 0.018)
rows$dy <- -0.03 + phi * rows$x - 1e-4 * rows$y + boardY[rows$board] + s * ox + c * oy + rnorm(n, 0, 0.018)
rows$dr <- 0.04 + 0.15 + partR[k] + nozR[l] + rnorm(n, 0, 0.25)
f <- file("src/test/resources/org/padtrue/mixed/crossed-article.csv", "w")
writeLines(paste0("# Invented data with known truth, made by src/test/r/crossed-article.R (", R.version.string, ")"), f)
writeLines("ref,part,nozzle,column,row,x,y,theta,dx,dy,dr", f)
writeLines(sprintf("%s,%s,%s,%d,%d,%.2f,%.2f,%d,%.4f,%.4f,%.3f", rows$ref, rows$part, rows$nozzle,
  as.integer(rows$column), as.integer(rows$row), rows$x, rows$y, as.integer(rows$theta), rows$dx, rows$dy, rows$dr), f)
close(f)
