package units

// Opt is a value that may be unknown. Its zero value is unknown, so a field
// nobody filled in can never pass for a zero.
type Opt[T any] struct {
	value T
	known bool
}

// Known returns the known value v.
func Known[T any](v T) Opt[T] { return Opt[T]{value: v, known: true} }

// Get returns the value and whether it is known.
func (o Opt[T]) Get() (T, bool) { return o.value, o.known }

// IsKnown reports whether the value is known.
func (o Opt[T]) IsKnown() bool { return o.known }

// Or returns the value, or fallback where it is unknown. The caller states the
// fallback in its answer as an assumption.
func (o Opt[T]) Or(fallback T) T {
	if o.known {
		return o.value
	}
	return fallback
}
