"""The interview that ends in a scenario file: questions as data, answers judged by the rules of the file."""
