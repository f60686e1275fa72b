package html

import _ "embed"

// Notice is a licence or a notice of what is part of every page.
type Notice struct{ Name, Text string }

//go:embed assets/LICENSE-echarts
var chartLicence string

//go:embed assets/NOTICE-echarts
var chartNotice string

// Notices are those of the chart library and of the packages bundled with it.
func Notices() []Notice {
	return []Notice{{"NOTICE-echarts", chartNotice}, {"LICENSE-echarts", chartLicence}}
}
