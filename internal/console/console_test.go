package console

import "testing"

func TestMoneyHasTheCurrencysDecimals(t *testing.T) {
	for _, c := range []struct {
		minor int64
		code  string
		want  string
	}{
		{75262, "EUR", "752.62 EUR"},
		{5, "EUR", "0.05 EUR"},
		{258912, "ISK", "258912 ISK"},
		{1234567, "KWD", "1234.567 KWD"},
		{12, "QQQ", "12 minor units of QQQ"},
	} {
		if got := money(c.minor, c.code); got != c.want {
			t.Errorf("%d of %s is %q, want %q", c.minor, c.code, got, c.want)
		}
	}
}
