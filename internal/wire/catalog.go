package wire

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/gate"
)

// revisionDigits of the hash, 64 bits, name a catalog: short enough to read out
// on the phone, and no two of a supplier's catalogs share them by chance. A
// revision tells catalogs apart; it doesn't prove where one came from.
const revisionDigits = 16

// DecodeCatalog reads a catalog document: strict YAML in the shape of
// CatalogDocument. The error is a DocumentError with everything that is wrong:
// first the document by itself, and once it is well formed, its parts, kits and
// policies with each other.
func DecodeCatalog(document []byte) (*catalog.Catalog, error) {
	m := &pb.CatalogDocument{}
	root, problems := unmarshalYAML(document, m)
	if err := documentError("", problems); err != nil {
		return nil, err
	}
	c, err := Catalog(m)
	var wrong catalog.Problems
	if errors.As(err, &wrong) {
		return nil, documentError("", placeProblems(wrong, root, m))
	}
	return c, err
}

// placeProblems gives problems with parts and kits the lines where those stand;
// of a SKU that stands twice the last.
func placeProblems(wrong catalog.Problems, root *yaml.Node, m *pb.CatalogDocument) []DocumentProblem {
	lines := map[string]int{}
	for i := 0; i+1 < len(root.Content); i += 2 {
		key, value := root.Content[i], root.Content[i+1]
		switch field := fieldOf(m.ProtoReflect().Descriptor(), key.Value); field.Name() {
		case "policies":
			lines[catalog.PoliciesSubject] = key.Line
		case "parts":
			for k, p := range m.GetParts() {
				lines[p.GetSku()] = value.Content[k].Line
			}
		case "kits":
			for k, p := range m.GetKits() {
				lines[p.GetSku()] = value.Content[k].Line
			}
		}
	}
	out := make([]DocumentProblem, len(wrong))
	for i, p := range wrong {
		out[i] = DocumentProblem{Line: lines[p.Subject], Text: p.String()}
	}
	return out
}

// Catalog makes the domain's catalog of a validated document. The error is a
// catalog.Problems where the document contradicts itself.
func Catalog(m *pb.CatalogDocument) (*catalog.Catalog, error) {
	name, err := revision(m)
	if err != nil {
		return nil, err
	}
	head := catalog.Catalog{
		SupplierCode: m.GetSupplierCode(),
		SupplierName: m.GetSupplierName(),
		Currency:     m.GetCurrencyCode(),
		TaxPercent:   m.GetTaxPercent(),
		Revision:     name,
		Policies:     policies(m.GetPolicies()),
	}
	parts := make([]catalog.Part, len(m.GetParts()))
	for i, p := range m.GetParts() {
		parts[i] = part(p)
	}
	kits := make([]catalog.Kit, len(m.GetKits()))
	for i, k := range m.GetKits() {
		kits[i] = kit(k)
	}
	wrong := conductorProblems(m)
	c, err := catalog.New(head, parts, kits)
	var more catalog.Problems
	if errors.As(err, &more) {
		wrong = append(wrong, more...)
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	return c, err
}

// revision names a document's content: comments, layout and the order of parts
// and kits don't change it, a price does. Protobuf's deterministic form is
// stable for messages without maps and unknown fields, which these are.
func revision(m *pb.CatalogDocument) (string, error) {
	canonical := proto.CloneOf(m)
	slices.SortStableFunc(canonical.Parts, func(a, b *pb.Part) int { return strings.Compare(a.GetSku(), b.GetSku()) })
	slices.SortStableFunc(canonical.Kits, func(a, b *pb.Kit) int { return strings.Compare(a.GetSku(), b.GetSku()) })
	content, err := proto.MarshalOptions{Deterministic: true}.Marshal(canonical)
	if err != nil {
		return "", err
	}
	hash := sha256.Sum256(content)
	return hex.EncodeToString(hash[:])[:revisionDigits], nil
}

func kit(m *pb.Kit) catalog.Kit {
	k := catalog.Kit{
		SKU: m.GetSku(), Name: m.GetName(), Price: m.GetPriceMinor(),
		Power: gate.PowerSource(m.GetPower()), Withdrawn: m.GetWithdrawn(),
	}
	for _, l := range m.GetLines() {
		k.Lines = append(k.Lines, catalog.KitLine{SKU: l.GetSku(), Quantity: int(l.GetQuantity())})
	}
	return k
}
