//go:build ignore

// Exhaustive search for the best mounting of a linear drive, as the reference
// for the solver in internal/linkage. It shares no code with it: every margin
// and limit is worked out from the positions of the two pins at every lattice
// point, leaf angle and corner of the tolerance box. Nothing but a whole point
// is skipped, and only once it can't win any more.
//
//	go run exhaustive.go > exhaustive.json                   write the reference
//	go run exhaustive.go -recompute 3,17 < exhaustive.json   repeat single cases
//	go run exhaustive.go -pick 7:357,11:68 > hard.json       cases of other seeds
//
// hard.json holds the cases, found among 17 000 more, that earlier versions of
// the solver missed. There an id is the place in the file.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
)

// problem is one case. Lengths in mm, forces in N, moments in N m, angles in
// degrees, inertia in kg m2, rod speed in mm/s, rod acceleration in mm/s2.
// Nothing stands for an optional limit that isn't set.
type problem struct {
	ID              int       `json:"id"`
	Side            string    `json:"side"`
	A               [2]int    `json:"a_mm"`
	B               [][2]int  `json:"b_mm"`
	C               [2]int    `json:"c_mm"`
	E               int       `json:"e_mm"`
	Box             int       `json:"box_mm"`
	Open            float64   `json:"open_deg"`
	SwingEnd        float64   `json:"swing_end_deg"`
	OpenByRamEnd    bool      `json:"open_by_ram_end"`
	Shortest        float64   `json:"shortest_mm"`
	Longest         float64   `json:"longest_mm"`
	ThrustExtending float64   `json:"thrust_extending_n"`
	ThrustRetract   float64   `json:"thrust_retracting_n"`
	RearSweepMax    *float64  `json:"rear_sweep_max_deg,omitempty"`
	FrontSweepMax   *float64  `json:"front_sweep_max_deg,omitempty"`
	ReserveClosed   float64   `json:"reserve_closed_mm"`
	ReserveOpen     float64   `json:"reserve_open_mm"`
	MinArm          float64   `json:"min_arm_mm"`
	MaxStroke       *float64  `json:"max_stroke_mm,omitempty"`
	Opening         []float64 `json:"opening_n_m"`
	Closing         []float64 `json:"closing_n_m"`
	Inertia         float64   `json:"inertia_kg_m2"`
	RodSpeed        float64   `json:"rod_speed_mm_s"`
	RodAcceleration float64   `json:"rod_acceleration_mm_s2"`
}

// result is the best margin found and where; Best is empty where no lattice
// point keeps every limit.
type result struct {
	problem
	Lattice int     `json:"lattice_points"`
	Margin  float64 `json:"best_margin"`
	Best    []int   `json:"best_a_b_c_mm"`
}

type reference struct {
	Source string   `json:"source"`
	Basis  string   `json:"basis"`
	Cases  []result `json:"cases"`
}

func main() {
	n := flag.Int("n", 300, "how many cases to make")
	seed := flag.Uint64("seed", 20240611, "seed of the cases")
	recompute := flag.String("recompute", "", "ids of the cases on standard input to work out again")
	pick := flag.String("pick", "", "single cases to make, as seed:id")
	flag.Parse()

	var cases []result
	switch {
	case *pick != "":
		for _, text := range strings.Split(*pick, ",") {
			var seed uint64
			var id int
			if _, err := fmt.Sscanf(text, "%d:%d", &seed, &id); err != nil || id < 0 {
				log.Fatalf("no case %q", text)
			}
			made := firstCases(seed, id+1)
			made[id].ID = len(cases)
			cases = append(cases, made[id])
		}
	case *recompute == "":
		cases = firstCases(*seed, *n)
	default:
		var given reference
		if err := json.NewDecoder(os.Stdin).Decode(&given); err != nil {
			log.Fatal(err)
		}
		for _, text := range strings.Split(*recompute, ",") {
			id, err := strconv.Atoi(text)
			if err != nil || id < 0 || id >= len(given.Cases) {
				log.Fatalf("no case %q", text)
			}
			cases = append(cases, result{problem: given.Cases[id].problem})
		}
	}

	var all sync.WaitGroup
	slots := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range cases {
		all.Add(1)
		slots <- struct{}{}
		go func() {
			defer func() { <-slots; all.Done() }()
			cases[i].search()
		}()
	}
	all.Wait()
	write(cases)
}

// firstCases makes the first n cases of a seed.
func firstCases(seed uint64, n int) (cases []result) {
	random := rand.New(rand.NewPCG(seed, 1))
	for id := range n {
		cases = append(cases, result{problem: generate(random, id)})
	}
	return cases
}

// write prints one case a line, so that a changed case is one changed line.
func write(cases []result) {
	fmt.Printf("{\n\"source\": \"testdata/reference/mounting/exhaustive.go: every point of the 1 mm lattice\",\n\"basis\": \"computed\",\n\"cases\": [\n")
	for i, c := range cases {
		line, err := json.Marshal(c)
		if err != nil {
			log.Fatal(err)
		}
		end := ","
		if i == len(cases)-1 {
			end = ""
		}
		fmt.Printf("%s%s\n", line, end)
	}
	fmt.Printf("]\n}\n")
}

// search tries every lattice point.
func (r *result) search() {
	s := newSampled(r.problem)
	for _, b := range r.B {
		for bMM := b[0]; bMM <= b[1]; bMM++ {
			for a := r.A[0]; a <= r.A[1]; a++ {
				for c := r.C[0]; c <= r.C[1]; c++ {
					r.Lattice++
					if margin, ok := s.margin(a, bMM, c, r.Margin); ok {
						r.Margin, r.Best = margin, []int{a, bMM, c}
					}
				}
			}
		}
	}
}

// sampled is a problem with its angles' cosines and sines, in SI units.
type sampled struct {
	problem
	cos, sin         []float64
	openCos, openSin float64
	rampOpening      []bool
	rampClosing      []bool
	speed2, accel    float64
	opening, closing float64 // thrust in each motion, N
}

func newSampled(p problem) sampled {
	s := sampled{problem: p, accel: p.RodAcceleration / 1000, speed2: p.RodSpeed * p.RodSpeed / 1e6}
	s.opening, s.closing = p.ThrustRetract, p.ThrustExtending
	if p.Side == "push" {
		s.opening, s.closing = s.closing, s.opening
	}
	s.openSin, s.openCos = math.Sincos(p.Open * math.Pi / 180)
	// The start-up ramp takes v^2/(2 a) of rod travel, so at most that over the
	// least arm of leaf angle. Closing starts anywhere from the wanted opening
	// angle to the end of the swing.
	ramp := 0.0
	if s.accel > 0 {
		ramp = s.speed2 / (2 * s.accel * p.MinArm / 1000)
	}
	last := len(p.Opening) - 1
	step := p.SwingEnd * math.Pi / 180 / float64(last)
	beyond := (p.SwingEnd - p.Open) * math.Pi / 180
	for i := range p.Opening {
		sin, cos := math.Sincos(float64(i) * step)
		s.cos, s.sin = append(s.cos, cos), append(s.sin, sin)
		s.rampOpening = append(s.rampOpening, float64(i)*step <= ramp)
		s.rampClosing = append(s.rampClosing, float64(last-i)*step <= ramp+beyond)
	}
	return s
}

// pins is the ram at one leaf angle.
type pins struct{ rx, ry, fx, fy float64 }

// at places the pins; all lengths in m.
func (s *sampled) at(a, b, c, e, cos, sin float64) pins {
	rx, ry, y := -a, b, e
	if s.Side == "push" {
		rx, ry, y = a, -b, -e
	}
	return pins{rx: rx, ry: ry, fx: c*cos - y*sin, fy: c*sin + y*cos}
}

func (p pins) length() float64 { return math.Hypot(p.fx-p.rx, p.fy-p.ry) }

// arm is the distance of the hinge axis from the ram's line, positive where the
// ram works the right way, and its derivative by the leaf angle.
func (p pins) arm(side string) (arm, slope float64) {
	dx, dy := p.fx-p.rx, p.fy-p.ry
	length := math.Sqrt(dx*dx + dy*dy)
	// Velocity of the front pin per radian is (-fy, fx); its component along the
	// ram is the rate of the length, the one across it turns the ram.
	along := (dx*-p.fy + dy*p.fx) / length
	across := (dx*p.fx + dy*p.fy) / length
	// The acceleration per radian squared is (-fx, -fy).
	second := (-dx*p.fx-dy*p.fy)/length + across*across/length
	if side == "push" {
		return along, second
	}
	return -along, -second
}

var signs = [2]float64{-1, 1}

// corners calls f with the centre and the 16 corners, lengths in m, until f says
// no.
func (s *sampled) corners(a, b, c int, f func(a, b, c, e float64) bool) bool {
	box := float64(s.Box) / 1000
	am, bm, cm, em := float64(a)/1000, float64(b)/1000, float64(c)/1000, float64(s.E)/1000
	if !f(am, bm, cm, em) {
		return false
	}
	for _, i := range signs {
		for _, j := range signs {
			for _, k := range signs {
				for _, l := range signs {
					if !f(am+i*box, bm+j*box, cm+k*box, em+l*box) {
						return false
					}
				}
			}
		}
	}
	return true
}

// margin is the smallest margin over the box, the swing and both motions of the
// lattice point, and whether it keeps every limit and beats the margin so far.
func (s *sampled) margin(a, b, c int, beat float64) (float64, bool) {
	if s.OpenByRamEnd && !s.endsInWindow(float64(a)/1000, float64(b)/1000, float64(c)/1000) {
		return 0, false
	}
	last := len(s.cos) - 1
	worst := math.Inf(1)
	ok := s.corners(a, b, c, func(a, b, c, e float64) bool {
		closed := s.at(a, b, c, e, 1, 0)
		end := s.at(a, b, c, e, s.cos[last], s.sin[last])
		if !s.lengthsHold(closed.length(), end.length()) {
			return false
		}
		for i := range s.cos {
			arm, slope := s.at(a, b, c, e, s.cos[i], s.sin[i]).arm(s.Side)
			if arm*1000 < s.MinArm-exactFit {
				return false
			}
			worst = min(worst, s.marginAt(i, arm, slope))
			if worst <= beat {
				return false
			}
		}
		return true
	})
	if !ok || worst <= beat {
		return 0, false
	}
	if !s.corners(a, b, c, s.sweepsHold) {
		return 0, false
	}
	return worst, true
}

func (s *sampled) marginAt(i int, arm, slope float64) float64 {
	needOpening := s.Opening[i] + s.Inertia*s.speed2*max(0, -slope)/(arm*arm*arm)
	needClosing := s.Closing[i] + s.Inertia*s.speed2*max(0, slope)/(arm*arm*arm)
	if s.rampOpening[i] {
		needOpening += s.Inertia * s.accel / arm
	}
	if s.rampClosing[i] {
		needClosing += s.Inertia * s.accel / arm
	}
	margin := math.Inf(1)
	if needOpening > 0 {
		margin = s.opening * arm / needOpening
	}
	if needClosing > 0 {
		margin = min(margin, s.closing*arm/needClosing)
	}
	return margin
}

// exactFit is what the arithmetic may leave of a limit met exactly, mm; for a
// turning limit, degrees.
const exactFit = 1e-6

// lengthsHold checks the ram's length at the two ends of the swing, m.
func (s *sampled) lengthsHold(closed, end float64) bool {
	closed, end = closed*1000, end*1000
	stroke, least := closed-end, end-s.Shortest-s.ReserveOpen
	atClosed := s.Longest - s.ReserveClosed - closed
	if s.Side == "push" {
		stroke, least = end-closed, s.Longest-s.ReserveOpen-end
		atClosed = closed - s.Shortest - s.ReserveClosed
	}
	if s.OpenByRamEnd {
		stroke, least = closed-s.Shortest, 0
		if s.Side == "push" {
			stroke = s.Longest - closed
		}
	}
	return atClosed >= -exactFit && least >= -exactFit && (s.MaxStroke == nil || stroke <= *s.MaxStroke+exactFit)
}

// endsInWindow says whether the ram reaches its end between the wanted opening
// angle and the end of the swing, with the dimensions as drawn.
func (s *sampled) endsInWindow(a, b, c float64) bool {
	last := len(s.cos) - 1
	e := float64(s.E) / 1000
	open := s.at(a, b, c, e, s.openCos, s.openSin).length() * 1000
	end := s.at(a, b, c, e, s.cos[last], s.sin[last]).length() * 1000
	if s.Side == "push" {
		return open <= s.Longest+exactFit && end >= s.Longest-exactFit
	}
	return open >= s.Shortest-exactFit && end <= s.Shortest+exactFit
}

// sweepsHold checks how far each pin turns. Where the turning reverses inside
// the swing, the reversal is found by halving.
func (s *sampled) sweepsHold(a, b, c, e float64) bool {
	if s.RearSweepMax == nil && s.FrontSweepMax == nil {
		return true
	}
	end := s.SwingEnd * math.Pi / 180
	start := s.at(a, b, c, e, 1, 0)
	turned := func(theta float64) float64 {
		sin, cos := math.Sincos(theta)
		p := s.at(a, b, c, e, cos, sin)
		x0, y0 := start.fx-start.rx, start.fy-start.ry
		x1, y1 := p.fx-p.rx, p.fy-p.ry
		return math.Atan2(x0*y1-y0*x1, x0*x1+y0*y1)
	}
	rate := func(theta float64) float64 {
		sin, cos := math.Sincos(theta)
		p := s.at(a, b, c, e, cos, sin)
		dx, dy := p.fx-p.rx, p.fy-p.ry
		return (dx*p.fx + dy*p.fy) / (dx*dx + dy*dy)
	}
	reach := func(less float64) float64 {
		low, high := 0.0, 0.0
		include := func(theta float64) {
			v := turned(theta) - less*theta
			low, high = min(low, v), max(high, v)
		}
		include(end)
		from, to := 0.0, end
		first := rate(from) - less
		if first*(rate(to)-less) < 0 {
			for range 60 {
				middle := (from + to) / 2
				if first*(rate(middle)-less) > 0 {
					from = middle
				} else {
					to = middle
				}
			}
			include(from)
		}
		return (high - low) * 180 / math.Pi
	}
	if s.RearSweepMax != nil && reach(0) > *s.RearSweepMax+exactFit {
		return false
	}
	return s.FrontSweepMax == nil || reach(1) <= *s.FrontSweepMax+exactFit
}

// generate makes one gate and drive over the ranges such gates and drives have.
func generate(random *rand.Rand, id int) problem {
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	whole := func(low, high int) int { return low + random.IntN(high-low+1) }
	chance := func(share float64) bool { return random.Float64() < share }
	round := func(v, perUnit float64) float64 { return math.Round(v*perUnit) / perUnit }

	p := problem{ID: id, Side: "pull", Box: 5, Open: float64(whole(70, 115))}
	if chance(0.4) {
		p.Side, p.Open = "push", float64(whole(70, 110))
	}
	if chance(0.5) {
		p.Open = 90
	}
	if chance(0.3) {
		p.Box = whole(0, 8)
	}
	p.SwingEnd = p.Open
	if chance(0.3) {
		p.OpenByRamEnd = true
		p.SwingEnd += float64(whole(2, 8))
	}

	stroke := float64(whole(250, 600))
	p.Shortest = stroke + float64(whole(180, 350))
	p.Longest = p.Shortest + stroke
	p.ReserveClosed, p.ReserveOpen = float64(whole(0, 20)), float64(whole(0, 20))
	p.ThrustExtending = float64(whole(4, 40) * 100)
	p.ThrustRetract = p.ThrustExtending
	if chance(0.5) {
		p.ThrustRetract = round(p.ThrustExtending*between(0.6, 1.2), 0.1)
	}
	p.MinArm = float64(whole(30, 80))
	if chance(0.4) {
		v := round(stroke*between(0.7, 1.05), 1)
		p.MaxStroke = &v
	}
	if chance(0.2) {
		v := p.SwingEnd + float64(whole(-8, 25))
		p.RearSweepMax = &v
	}
	if chance(0.2) {
		v := float64(whole(20, 60))
		p.FrontSweepMax = &v
	}

	p.A = [2]int{whole(60, 110), whole(130, 400)}
	p.E = whole(0, 120)
	p.C = [2]int{whole(250, 450), whole(700, 1500)}
	plane := whole(-60, 150)
	if chance(0.5) {
		low := max(0, plane+whole(60, 120))
		p.B = [][2]int{{low, low + whole(5, 60)}}
		if chance(0.3) {
			p.B = append(p.B, [2]int{p.B[0][1] + 20, p.B[0][1] + 20 + whole(0, 30)})
		}
	} else {
		at := max(0, plane+whole(50, 100))
		for range whole(1, 6) {
			p.B = append(p.B, [2]int{at, at})
			at += whole(10, 40)
		}
	}

	length := between(1.2, 5.2)
	mass := between(8, 60) * length
	p.Inertia = round(mass*length*length/3, 10)
	if chance(0.1) {
		p.Inertia = 0
	}
	p.RodSpeed = float64(whole(8, 40))
	p.RodAcceleration = float64(whole(10, 100))
	friction := mass * between(0.01, 0.3)
	wind := 0.0
	if chance(0.6) {
		wind = between(0, 30) * length * length
	}
	lean, direction := 0.0, 0.0
	if chance(0.5) {
		lean = mass * 9.81 * length / 2 * math.Sin(between(0, 1.5)*math.Pi/180)
		direction = between(0, 2*math.Pi)
	}
	samples := whole(10, 37)
	for i := range samples {
		theta := p.SwingEnd * math.Pi / 180 * float64(i) / float64(samples-1)
		pushed := lean * math.Sin(theta-direction)
		p.Opening = append(p.Opening, round(friction+wind+pushed, 100))
		p.Closing = append(p.Closing, round(friction+wind-pushed, 100))
	}
	return p
}
