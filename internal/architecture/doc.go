// Package architecture holds the rules that keep the packages apart, as tests: the
// order in which they may import each other, what the domain may use at all, and
// what stands at the top of the repository. It has no code of its own.
package architecture
