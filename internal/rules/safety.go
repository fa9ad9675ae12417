package rules

import (
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/units"
)

// Safety is what every answer that can lead to work on site says.
func Safety(sign units.Opt[string]) []finding.Finding {
	const subject = "gate"
	force := remedy(found(finding.ForceTest, subject, "A powered leaf can crush. The finished gate is to be force-tested, and made safe under local rules, by a competent person before it is used."),
		finding.DoWork, "Have the closing and opening forces measured along the leaf and set, and keep the record.")
	trap := remedy(found(finding.EntrapmentProtection, subject, "People can be caught between leaf and post, leaf and ground, leaf and anything beside it, and at the hinges."),
		finding.DoWork, "Have each such place closed off, kept wide enough, or guarded by a device, as the local standard asks.")
	signs := found(finding.CautionSigns, subject, "Both faces of the gate say that it moves by itself.")
	if sku, sold := sign.Get(); sold {
		signs = remedyPart(signs, sku, "Fix a caution sign on each side.")
	} else {
		signs = remedy(signs, finding.DoWork, "Fix a caution sign on each side.")
	}
	keepClear := remedy(found(finding.KeepSwingClear, subject, "Nobody and nothing is to be in the swing while a leaf moves."),
		finding.DoWork, "Place controls where the whole swing is in sight, and out of its reach.")
	return []finding.Finding{force, trap, signs, keepClear}
}

// Release is about getting through when the power is off.
func Release(drive string, has bool) []finding.Finding {
	f := found(finding.ManualRelease, drive, "Everybody in the house should know how to release the drive by hand, with the power off.")
	if !has {
		f = found(finding.ManualRelease, drive, "The drive has no manual release: with the power off the gate stays as it is.")
		return []finding.Finding{remedy(f, finding.DoWork, "Keep another way in and out, or a battery behind the controller.")}
	}
	return []finding.Finding{remedy(f, finding.DoWork, "Try the release after fitting, and again every year.")}
}
