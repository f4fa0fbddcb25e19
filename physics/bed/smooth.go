package bed

func width(w, shipped float64) float64 {
	if w > 0 {
		return w
	}
	return shipped
}
