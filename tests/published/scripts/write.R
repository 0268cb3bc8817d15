# Where the scripts are run from, and one way to read data and to write figures: all digits, names as given.
args <- commandArgs(FALSE)
here <- dirname(sub("^--file=", "", args[grep("^--file=", args)]))
data_file <- function(name) file.path(here, "..", "data", name)
read_data <- function(name) read.csv(data_file(paste0(name, ".csv")), stringsAsFactors = FALSE)
write_figures <- function(name, figures, packages = character()) {
  made_with <- c(list(R = paste(R.version$major, R.version$minor, sep = ".")),
                 setNames(lapply(packages, function(p) as.character(packageVersion(p))), packages))
  jsonlite::write_json(c(list(made_with = made_with), figures), data_file(paste0(name, ".json")),
                       digits = NA, auto_unbox = TRUE, pretty = 1)
}
# A table of terms: name -> [estimate, standard error]
terms_of <- function(names, estimate, se) setNames(Map(function(a, b) c(a, b), unname(estimate), unname(se)), names)
