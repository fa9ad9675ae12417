package casefile

import (
	"strings"
	"testing"
)

func TestStrictDecoding(t *testing.T) {
	const good = `{"topic":"x","cases":[{"id":"a","model":"m","in":{},"want":{"y":1},"relative":0.1,"source":"s","basis":"published"}]}`
	if _, err := decode(strings.NewReader(good)); err != nil {
		t.Fatalf("a complete case is refused: %v", err)
	}
	for name, bad := range map[string]string{
		"stray field":   strings.Replace(good, `"in"`, `"inn"`, 1),
		"no source":     strings.Replace(good, `"s"`, `""`, 1),
		"no tolerance":  strings.Replace(good, `0.1`, `0`, 1),
		"unknown basis": strings.Replace(good, `published`, `guess`, 1),
		"no want":       strings.Replace(good, `{"y":1}`, `{}`, 1),
		"trailing":      good + `{}`,
		"twice":         strings.Replace(good, `]}`, `,`+good[len(`{"topic":"x","cases":[`):], 1),
	} {
		if _, err := decode(strings.NewReader(bad)); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
