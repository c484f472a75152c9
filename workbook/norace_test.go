//go:build !race

package workbook

const raceAllocates = 1
