module ferrule

go 1.26.0

require (
	github.com/hpinc/go3mf v0.24.2 // indirect
	github.com/klauspost/compress v1.20.4 // indirect
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/peterstace/simplefeatures v0.58.0 // indirect
	github.com/qmuntal/opc v0.7.10 // indirect
	github.com/unixpickle/essentials v1.3.0 // indirect
	github.com/unixpickle/model3d v0.4.6 // indirect
	golang.org/x/image v0.47.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
