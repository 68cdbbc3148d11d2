#include "exchange/format_table.h"

#include "exchange/formats/geojson_writer.h"
#include "exchange/formats/kml_writer.h"

#include <algorithm>

namespace fencewright::exchange {

namespace {

const std::vector<WritableFormat>& table() {
    static const std::vector<WritableFormat> formats{
        {{DeliveryFormat::GeoJson, "GeoJSON (RFC 7946)", "geojson", ".geojson"}, false, writeGeoJson, readBackGeoJson},
        {{DeliveryFormat::Kml, "KML 2.2", "kml", ".kml"}, true, writeKml, readBackKml},
    };
    return formats;
}

} // namespace

const WritableFormat& writableFormat(DeliveryFormat format) {
    const auto at = std::find_if(table().begin(), table().end(),
                                 [&](const WritableFormat& row) { return row.info.format == format; });
    if (at == table().end())
        throw Fault{phrase("core", "This format cannot be written."), "",
                    phrase("core", "Choose one of the formats listed.")};
    return *at;
}

const std::vector<DeliveryFormatInfo>& deliveryFormats() {
    static const std::vector<DeliveryFormatInfo> formats = [] {
        std::vector<DeliveryFormatInfo> infos;
        for (const WritableFormat& row : table())
            infos.push_back(row.info);
        return infos;
    }();
    return formats;
}

} // namespace fencewright::exchange
