// Package drawing holds line drawings in millimetres and writes them down: as
// SVG for the screen, PDF for the printer, and DXF R12 for the cutter.
//
// A Sheet has named layers, each drawn with one pen, and on them plain shapes:
// lines, arcs, circles, polylines whose segments may bulge into arcs, hatches
// and text. Coordinates are millimetres from the sheet's lower left corner,
// y upwards, angles in radians counter-clockwise from the x axis, as on a
// drawing board. Later layers lie over earlier ones, and so do later shapes.
//
// The same sheet always gives the same bytes. A sheet that cannot be drawn (a
// coordinate that is not a number, a layer without a name) is refused with an
// error that says where.
//
// It knows nothing of stoves or fires, lays nothing out, and does not read
// any of its formats back. Widths of text are upper estimates from a table of
// common faces (see TextWidth), good for keeping labels apart.
package drawing
