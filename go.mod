module toplit

go 1.26
