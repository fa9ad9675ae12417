package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/sizing"
)

// CatalogSummary says what a catalog holds.
func CatalogSummary(c *catalog.Catalog) *pb.GetCatalogResponse {
	out := &pb.GetCatalogResponse{
		CatalogRevision: c.Revision,
		EngineVersion:   sizing.EngineVersion,
		SupplierCode:    c.SupplierCode,
		SupplierName:    c.SupplierName,
		CurrencyCode:    c.Currency,
		Policies:        PoliciesProto(c.Policies),
		PartCount:       int32(len(c.Parts())),
		KitCount:        int32(len(c.Kits())),
	}
	for _, d := range c.LinearDrives() {
		out.Drives = append(out.Drives, &pb.DriveSummary{
			Sku: d.Part.SKU, Name: d.Part.Name, Family: d.Spec.Family,
			LongestLeafMm: rounded(catalog.LongestLeaf(d.Spec.MassRating, d.Spec.SolidityRating).Millimeters(), 1),
			VoltageV:      float64(d.Spec.Voltage),
		})
	}
	return out
}
