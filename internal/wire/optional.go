package wire

import "leafmoment.example/leafmoment/internal/units"

// optional turns an optional field into a value that may be unknown.
func optional[F, T any](field *F, convert func(F) T) units.Opt[T] {
	if field == nil {
		return units.Opt[T]{}
	}
	return units.Known(convert(*field))
}

func as[T ~float64](v float64) T { return T(v) }
func same(v float64) float64     { return v }
func mm(v float64) units.Length  { return units.Millimeters(v) }
func percent(v float64) float64  { return v / 100 }
func hours(v float64) units.Time { return units.Time(v * 3600) }
func whole(v int32) int          { return int(v) }
