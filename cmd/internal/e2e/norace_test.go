//go:build !race

package e2e

const raced = false
