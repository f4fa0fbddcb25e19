package cutsheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"toplit/drawing"
)

// browserScript measures what the browser has laid out: of every drawn circle
// the box on the screen, of every closed outline forty points along it, in CSS
// pixels from the picture's lower left corner, 96 to the inch.
const browserScript = `<script>
const all = [];
for (const svg of document.querySelectorAll("svg")) {
  const frame = svg.getBoundingClientRect(), one = { wide: frame.width, tall: frame.height, drill: [], cut: [] };
  for (const c of svg.querySelectorAll('[data-layer=DRILL] circle')) {
    const b = c.getBoundingClientRect();
    one.drill.push([b.left + b.width / 2 - frame.left, frame.bottom - b.top - b.height / 2, (b.width + b.height) / 4, b.width - b.height]);
  }
  for (const p of svg.querySelectorAll('[data-layer=CUT] path')) {
    if (!p.getAttribute("d").endsWith("Z")) continue;
    // Along a copy a hundred times as large: the browser measures lengths
    // along a curve to half a unit only.
    const big = document.createElementNS("http://www.w3.org/2000/svg", "path"), times = 100;
    big.setAttribute("d", p.getAttribute("d").replace(/([MLA])([^MLAZ]*)/g, (all, c, rest) => {
      const n = rest.trim().split(/[ ,]+/).map(Number);
      return c + n.map((v, i) => c === "A" && i >= 2 && i <= 4 ? v : v * times).join(" ");
    }));
    svg.appendChild(big);
    const m = p.getScreenCTM(), long = big.getTotalLength(), points = [];
    for (let k = 0; k < 40; k++) {
      const q = big.getPointAtLength(long * (k + 0.5) / 40), s = new DOMPoint(q.x / times, q.y / times).matrixTransform(m);
      points.push([s.x - frame.left, frame.bottom - s.y]);
    }
    big.remove();
    one.cut.push(points);
  }
  all.push(one);
}
document.body.textContent = "MEASURED" + JSON.stringify(all) + "END";
</script>`

// TestBrowser: the SVG as a browser shows it, in a target of its own because a
// browser is large and slow to start. TOPLIT_BROWSER says how many designs.
func TestBrowser(t *testing.T) {
	if os.Getenv("TOPLIT_BROWSER") == "" {
		t.Skip("TOPLIT_BROWSER is not set to a number of designs")
	}
	browser, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("chromium is not installed")
	}
	t.Setenv("TOPLIT_CUTSHEETS", os.Getenv("TOPLIT_BROWSER"))
	n := howMany(t, 1)
	dir, worst := t.TempDir(), 0.0
	const batch = 25
	for from := uint64(0); from < n; from += batch {
		var page bytes.Buffer
		page.WriteString("<!DOCTYPE html><meta charset=utf-8><body style='margin:7.3px'>")
		var sets []*Set
		for seed := from; seed < min(from+batch, n); seed++ {
			s, _ := planned(t, seed, Options{})
			sets = append(sets, s)
			page.WriteString("<div>")
			if err := s.WriteSVG(&page); err != nil {
				t.Fatal(err)
			}
			page.WriteString("</div>")
		}
		page.WriteString(browserScript)
		file := filepath.Join(dir, fmt.Sprintf("%d.html", from))
		if err := os.WriteFile(file, page.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(browser, "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-component-update",
			"--user-data-dir="+filepath.Join(dir, "profile"), "--virtual-time-budget=60000", "--dump-dom", "file://"+file).Output()
		if err != nil {
			t.Fatalf("%s: %v", browser, err)
		}
		_, text, ok1 := strings.Cut(string(out), "MEASURED")
		text, _, ok2 := strings.Cut(text, "END")
		if !ok1 || !ok2 {
			t.Fatalf("the browser measured nothing: %.300s", out)
		}
		var all []struct {
			Wide, Tall float64
			Drill      [][4]float64
			Cut        [][][2]float64
		}
		if err := json.Unmarshal([]byte(text), &all); err != nil {
			t.Fatal(err)
		}
		if len(all) != len(sets) {
			t.Fatalf("%d pictures measured, want %d", len(all), len(sets))
		}
		const mm = 25.4 / 96 // of a CSS pixel
		for i, d := range all {
			name := fmt.Sprintf("seed %d", from+uint64(i))
			sheet, at := sets[i].Drawing()
			if math.Abs(d.Wide*mm-sheet.Width) > tolerance || math.Abs(d.Tall*mm-sheet.Height) > tolerance {
				t.Errorf("%s: picture of %.3f × %.3f mm, want %.3f × %.3f", name, d.Wide*mm, d.Tall*mm, sheet.Width, sheet.Height)
			}
			var rounds, shapes []seen
			for _, c := range d.Drill {
				rounds = append(rounds, seen{x: c[0] * mm, y: c[1] * mm, r: c[2] * mm})
				if math.Abs(c[3]*mm) > tolerance {
					t.Errorf("%s: a circle is %.3f mm wider than tall", name, c[3]*mm)
				}
			}
			for _, c := range d.Cut {
				var q seen
				for _, p := range c {
					q.corners = append(q.corners, drawing.Point{X: p[0] * mm, Y: p[1] * mm})
				}
				shapes = append(shapes, q)
			}
			worst = math.Max(worst, match(t, name, sets[i], at, rounds, true, func(c seen, h Hole, o drawing.Point) float64 {
				return math.Max(math.Hypot(c.x-o.X-h.X, c.y-o.Y-h.Y), math.Abs(c.r-h.Width/2))
			}))
			worst = math.Max(worst, match(t, name, sets[i], at, shapes, false, cornersOff))
		}
	}
	t.Logf("%d designs, worst %.4f mm", n, worst)
}
