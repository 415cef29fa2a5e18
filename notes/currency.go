package notes

// NoCurrency is the code of ISO 4217 for no currency at all.
const NoCurrency = "XXX"

// notTwoDecimals are the currencies whose smallest unit is not a hundredth.
// Source: ISO 4217, list one, minor units (from memory).
var notTwoDecimals = map[string]int{
	NoCurrency: 0,
	"BIF":      0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0, "UGX": 0,
	"UYI": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
	"BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3, "CLF": 4, "UYW": 4,
}

// MinorUnits returns how many decimals a currency, an ISO 4217 code, is counted with. Money has two:
// nothing can be billed in a currency with another number.
func MinorUnits(code string) int {
	if n, ok := notTwoDecimals[code]; ok {
		return n
	}
	return 2
}
