module linemap

go 1.26

require (
	codeberg.org/go-fonts/dejavu v0.4.0 // indirect
	codeberg.org/go-pdf/fpdf v0.12.0 // indirect
	github.com/dominikbraun/graph v0.23.0 // indirect
	github.com/go-json-experiment/json v1.27.2 // indirect
	github.com/google/renameio/v2 v2.0.2 // indirect
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3 // indirect
	github.com/stretchr/testify v1.12.1 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/image v0.40.0 // indirect
	golang.org/x/text v0.37.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
