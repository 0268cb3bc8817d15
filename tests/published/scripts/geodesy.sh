#!/usr/bin/env bash
# Geodesics, areas and projections by the command line tools of GeographicLib 2.1.2 and PROJ 9.1.1, for
# tests/published/geodesics and projections. Writes ../data/geodesy.txt. Run: bash geodesy.sh
cd "$(dirname "$0")/../data" || exit 1
{
  echo "# $(GeodSolve --version 2>&1); $(cs2cs 2>&1 | head -1)"
  echo "# GeodSolve -p 9: lat lon azimuth 30 m -> lat lon azimuth"
  printf '47.6 9.4 137.5 30\n44.93 -93.57 12.25 30\n' | GeodSolve -p 9
  echo "# Planimeter -p 9: corners, perimeter, area"
  printf '44.93 -93.57\n44.93 -93.569\n44.931 -93.569\n44.931 -93.57\n' | Planimeter -p 9
  printf '47.6 9.4\n47.6 9.41\n47.605 9.405\n47.61 9.41\n47.61 9.4\n' | Planimeter -p 9
  echo "# GeoConvert -u -p 6: lat lon -> zone easting northing"
  printf '47.6 9.4\n44.93 -93.57\n44.476 -73.25\n-38.8 175.9\n33.85 -96.65\n45 -90.0000001\n' | GeoConvert -u -p 6
  echo "# cs2cs +proj=utm: easting northing"
  while read -r lat lon zone; do
    # shellcheck disable=SC2086
    echo "$lon $lat" | cs2cs -f %.6f +proj=longlat +datum=WGS84 +to +proj=utm +datum=WGS84 $zone
  done <<'PLACES'
47.6 9.4 +zone=32
44.93 -93.57 +zone=15
44.476 -73.25 +zone=18
-38.8 175.9 +zone=60 +south
33.85 -96.65 +zone=14
45 -90.0000001 +zone=15
PLACES
} > geodesy.txt
