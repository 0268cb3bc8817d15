#!/bin/sh
# Makes the rasters of this folder and expected.json with GDAL 3.6 and PROJ 9.1 (Debian gdal-bin). Depth is
# 1 + 0.1·column + 0.3·row at the cells' centres, so that bilinear interpolation is exact; expected.json holds depths at
# points of longitude and latitude by that formula, columns and rows from gdaltransform. Run in this folder.
set -e
WORK=$(mktemp -d)
python3 - "$WORK" <<'PY'
import sys
w, h = 9, 7
for name, f in [('plane', lambda c, r: 1 + 0.1 * c + 0.3 * r), ('raised', lambda c, r: 0.1 * c - 0.3 * r)]:
    with open(f'{sys.argv[1]}/{name}.asc', 'w') as out:
        out.write(f'ncols {w}\nnrows {h}\nxllcorner 0\nyllcorner 0\ncellsize 1\nNODATA_value -9999\n')
        for r in range(h):
            out.write(' '.join(f'{f(c, r):.6f}' for c in range(w)) + '\n')
PY
# place NAME CRS LON LAT STEP [options]: upper left corner at LON LAT
place() {
  name=$1; crs=$2; lon=$3; lat=$4; step=$5; shift 5
  ul=$(echo "$lon $lat" | gdaltransform -s_srs "+proj=longlat +datum=WGS84 +no_defs" -t_srs "$crs" -output_xy)
  x=${ul% *}; y=${ul#* }
  xr=$(python3 -c "print($x + 9 * $step)"); yb=$(python3 -c "print($y - 7 * $step)")
  gdal_translate -q -ot Float32 -a_srs "$crs" -a_ullr "$x" "$y" "$xr" "$yb" "$@" "$WORK/plane.asc" "$name.tif"
}
US="-93.571 44.931"
EU="9.399 47.601"
place wgs84 EPSG:4326 $US 0.0001
place nad83 EPSG:4269 $US 0.0001
place etrs89 EPSG:4258 $EU 0.0001
place utm-wgs84 EPSG:32615 $US 10
place utm-south EPSG:32760 175.9 -38.8 10
place utm-nad83 EPSG:26915 $US 10
place utm-nad83-2011 EPSG:6344 $US 10
place utm-etrs89 EPSG:25832 $EU 10
place web-mercator EPSG:3857 $US 10
place tmerc "+proj=tmerc +lat_0=44 +lon_0=-93 +k=0.9999 +x_0=5000 +y_0=1000 +datum=WGS84 +units=m +no_defs" $US 10
place lcc-2sp "+proj=lcc +lat_0=44 +lon_0=-94 +lat_1=45 +lat_2=47 +x_0=8000 +y_0=1000 +datum=WGS84 +units=m +no_defs" $US 10
place lcc-1sp "+proj=lcc +lat_0=45 +lon_0=-94 +lat_1=45 +k_0=0.9998 +x_0=8000 +y_0=1000 +datum=WGS84 +units=m +no_defs" $US 10
place laea "+proj=laea +lat_0=44.93 +lon_0=-93.57 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs" $US 10
place albers "+proj=aea +lat_0=44 +lon_0=-94 +lat_1=43 +lat_2=48 +x_0=600000 +y_0=100 +ellps=GRS80 +units=m +no_defs" $US 10
place tmerc-feet "+proj=tmerc +lat_0=44 +lon_0=-93 +k=0.9999 +x_0=5000 +y_0=1000 +datum=WGS84 +units=us-ft +no_defs" $US 30
place point EPSG:32615 $US 10 -mo AREA_OR_POINT=Point
place packed EPSG:32615 $US 10 -co TILED=YES -co BLOCKXSIZE=16 -co BLOCKYSIZE=16 -co COMPRESS=DEFLATE -co PREDICTOR=3
gdal_translate -q -a_srs EPSG:32615 -a_ullr 454942.5 4975374 455032.5 4975444 "$WORK/plane.asc" -ot Float32 south-up.tif
# refused or with gaps
place feet-deep EPSG:32615+6360 $US 10
gdal_translate -q -of VRT utm-wgs84.tif "$WORK/unit.vrt"
sed -i 's|<VRTRasterBand \(.*\)>|<VRTRasterBand \1><UnitType>ft</UnitType>|' "$WORK/unit.vrt"
sed -i "s|relativeToVRT=\"1\">[^<]*utm-wgs84.tif|relativeToVRT=\"0\">$PWD/utm-wgs84.tif|" "$WORK/unit.vrt"
gdal_translate -q "$WORK/unit.vrt" band-in-feet.tif
gdal_translate -q -of VRT utm-wgs84.tif "$WORK/turned.vrt"
sed -i 's|<GeoTransform>.*</GeoTransform>|<GeoTransform>454942, 9, 2, 4975444, 2, -9</GeoTransform>|' "$WORK/turned.vrt"
sed -i "s|relativeToVRT=\"1\">[^<]*utm-wgs84.tif|relativeToVRT=\"0\">$PWD/utm-wgs84.tif|" "$WORK/turned.vrt"
gdal_translate -q "$WORK/turned.vrt" turned.tif
place british EPSG:27700 -2 52 10
place sphere "+proj=laea +lat_0=44.93 +lon_0=-93.57 +x_0=0 +y_0=0 +R=6371000 +units=m +no_defs" $US 10
place stereographic "+proj=stere +lat_0=44.93 +lon_0=-93.57 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs" $US 10
gdal_translate -q -ot Float32 -a_ullr 0 7 9 0 "$WORK/plane.asc" no-crs.tif
gdal_translate -q -ot Float32 -a_srs EPSG:32615 -a_ullr 455000 4975400 455090 4975330 "$WORK/raised.asc" elevations.tif
gdal_translate -q -b 1 -b 1 utm-wgs84.tif two-bands.tif
gdal_translate -q -ot Int16 -a_srs EPSG:32615 -a_scale 0.1 -a_offset 2 utm-wgs84.tif scaled.tif
gdal_calc.py --quiet -A utm-wgs84.tif --outfile="$WORK/gap.tif" --calc="where(A > 3.05, -9999, A)" --NoDataValue=-9999 --overwrite 2>/dev/null || \
  gdal_translate -q -a_nodata 1.3 utm-wgs84.tif "$WORK/gap.tif"
gdal_translate -q "$WORK/gap.tif" gap.tif
gdal_create -q -ot Float32 -outsize 4 4 -bands 1 -burn -9999 -a_nodata -9999 -a_srs EPSG:32615 -a_ullr 0 4 4 0 all-gap.tif
rm -f ./*.aux.xml
python3 - <<'PY'
import glob, json, subprocess
refused = {'feet-deep', 'band-in-feet', 'turned', 'british', 'sphere', 'stereographic', 'no-crs', 'elevations', 'two-bands', 'scaled', 'gap', 'all-gap'}
expected = {}
for path in sorted(glob.glob('*.tif')):
    name = path[:-4]
    if name in refused:
        continue
    points = []
    info = json.loads(subprocess.run(['gdalinfo', '-json', path], capture_output=True, text=True).stdout)
    for column, row in [(0.5, 0.5), (4.2, 3.1), (8.4, 6.3), (2.75, 5.5)]:
        ll = subprocess.run(['gdaltransform', '-t_srs', '+proj=longlat +datum=WGS84 +no_defs', '-output_xy', path],
                            input=f'{column} {row}', capture_output=True, text=True).stdout.split()
        depth = 1 + 0.1 * (column - 0.5) + 0.3 * (row - 0.5)
        points.append({'lng_lat': [float(ll[0]), float(ll[1])], 'depth_m': round(depth, 9)})
    expected[name] = points
json.dump(expected, open('expected.json', 'w'), indent=1)
PY
rm -rf "$WORK"
