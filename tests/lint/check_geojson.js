// Reads GeoJSON files with two general linters; prints what they object to and exits with 1 if they do.
// Usage: node check_geojson.js FILE...
"use strict";
const fs = require("fs");
const { hint } = require("@mapbox/geojsonhint");
const { check } = require("@placemarkio/check-geojson");

let objections = 0;
for (const file of process.argv.slice(2)) {
    const text = fs.readFileSync(file, "utf8");
    // The number of decimals is the user's choice, so the linter's wish for six is not asked for.
    for (const found of hint(text, { precisionWarning: false })) {
        console.log(`${file}: geojsonhint: line ${found.line}: ${found.message}`);
        ++objections;
    }
    try {
        check(text);
    } catch (error) {
        console.log(`${file}: check-geojson: ${error.message}`);
        ++objections;
    }
}
process.exit(objections > 0 ? 1 : 0);
