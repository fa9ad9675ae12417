// Package demotest makes larger catalogs of the demo supplier's for tests and
// benchmarks.
package demotest

import (
	"fmt"
	"testing"

	"buf.build/go/protoyaml"
	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/demo"
)

// Enlarged returns the demo catalog's document with the given number of linear
// drives on sale, at least those it has. Each further drive is one of the demo's
// with up to a quarter less stroke and speed and up to a half more thrust, mass
// rating and price, and has the demo drive's kits. The same number gives the
// same document.
func Enlarged(t testing.TB, drives int) []byte {
	t.Helper()
	d := &pb.CatalogDocument{}
	if err := protoyaml.Unmarshal(demo.Catalog(), d); err != nil {
		t.Fatal(err)
	}
	var bases []*pb.Part
	for _, p := range d.GetParts() {
		if p.GetLinearDrive() != nil && !p.GetWithdrawn() {
			bases = append(bases, p)
		}
	}
	kits := d.GetKits()
	rounds := (drives + len(bases) - 1) / len(bases)
	for i := len(bases); i < drives; i++ {
		base, round := bases[i%len(bases)], i/len(bases)
		p := vary(base, round, float64(round)/float64(rounds))
		d.Parts = append(d.Parts, p)
		for _, k := range kits {
			if kit, ok := swap(k, base, p, round); ok {
				d.Kits = append(d.Kits, kit)
			}
		}
	}
	document, err := protoyaml.MarshalOptions{UseProtoNames: true}.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	return document
}

// vary returns a drive changed by a share, 0 to 1, of the widest change.
func vary(base *pb.Part, round int, share float64) *pb.Part {
	p := proto.CloneOf(base)
	p.Sku = fmt.Sprintf("%s-%d", base.GetSku(), round)
	p.Name = fmt.Sprintf("%s, variant %d", base.GetName(), round)
	*p.PriceMinor += int64(share / 2 * float64(p.GetPriceMinor()))
	less, more := 1-share/4, 1+share/2
	s := p.GetLinearDrive()
	*s.LongestMm = s.GetShortestMm() + less*(s.GetLongestMm()-s.GetShortestMm())
	*s.ThrustExtendingN *= more
	*s.ThrustRetractingN *= more
	for _, l := range s.GetLoadPoints() {
		*l.ThrustN *= more
		*l.RodSpeedMmS *= less
	}
	for _, m := range s.GetMassRating() {
		*m.MassKg *= more
	}
	return p
}

// swap returns a kit with a drive in its base's place; false where the kit
// doesn't hold the base.
func swap(k *pb.Kit, base, p *pb.Part, round int) (*pb.Kit, bool) {
	kit := proto.CloneOf(k)
	kit.Sku = fmt.Sprintf("%s-%d", k.GetSku(), round)
	for _, l := range kit.GetLines() {
		if l.GetSku() == base.GetSku() {
			*kit.PriceMinor += int64(l.GetQuantity()) * (p.GetPriceMinor() - base.GetPriceMinor())
			l.Sku = p.GetSku()
			return kit, true
		}
	}
	return nil, false
}
