#include "support/wmts_service.h"

#include <cstdio>

namespace fencewright::test {

namespace {

constexpr int kZooms = 5;

std::string number(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.16g", value);
    return text;
}

std::string matrices(double coarsest, const std::string& corner) {
    std::string xml;
    for (int zoom = 0; zoom < kZooms; ++zoom) {
        const std::string side = std::to_string(1 << zoom);
        xml += "<TileMatrix><ows:Identifier>" + std::to_string(zoom) + "</ows:Identifier><ScaleDenominator>" +
               number(coarsest / (1 << zoom)) + "</ScaleDenominator><TopLeftCorner>" + corner +
               "</TopLeftCorner><TileWidth>256</TileWidth><TileHeight>256</TileHeight><MatrixWidth>" + side +
               "</MatrixWidth><MatrixHeight>" + side + "</MatrixHeight></TileMatrix>";
    }
    return xml;
}

} // namespace

std::string capabilitiesOf(const std::string& address, const WmtsService& service) {
    const std::string tiles = service.tileAddress.empty() ? address : service.tileAddress;
    const bool restful = service.encoding == WmtsService::Encoding::Restful;
    const std::string key = service.keyParameter.empty() ? "" : "?" + service.keyParameter;
    const auto resource = [&](const std::string& layer) {
        return restful ? "<ResourceURL format=\"image/png\" resourceType=\"tile\" template=\"" + tiles + "/rest/" +
                             layer + "/{style}/{TileMatrixSet}/{TileMatrix}/{TileRow}/{TileCol}.png" + key + "\"/>"
                       : std::string{};
    };
    const std::string operation =
        "<ows:OperationsMetadata><ows:Operation name=\"GetCapabilities\"><ows:DCP><ows:HTTP><ows:Get xlink:href=\"" +
        address +
        "/kvp?\"/></ows:HTTP></ows:DCP></ows:Operation><ows:Operation "
        "name=\"GetTile\"><ows:DCP><ows:HTTP><ows:Get xlink:href=\"" +
        tiles + "/kvp" + (key.empty() ? "?" : key + "&amp;") + "\"><ows:Constraint name=\"GetEncoding\">" +
        "<ows:AllowedValues><ows:Value>KVP</ows:Value></ows:AllowedValues></ows:Constraint></ows:Get></ows:HTTP>"
        "</ows:DCP></ows:Operation></ows:OperationsMetadata>";
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<Capabilities xmlns=\"http://www.opengis.net/wmts/1.0\" "
           "xmlns:ows=\"http://www.opengis.net/ows/1.1\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
           "version=\"1.0.0\"><ows:ServiceIdentification><ows:Title>Maps of Alder Reach</ows:Title>"
           "<ows:ServiceType>OGC WMTS</ows:ServiceType><ows:ServiceTypeVersion>1.0.0</ows:ServiceTypeVersion>"
           "</ows:ServiceIdentification>" +
           (restful ? std::string{} : operation) +
           "<Contents><Layer><ows:Title>Orthophoto</ows:Title><ows:WGS84BoundingBox><ows:LowerCorner>-180 "
           "-85.0511287798066</ows:LowerCorner><ows:UpperCorner>180 85.0511287798066</ows:UpperCorner>"
           "</ows:WGS84BoundingBox><ows:Identifier>ortho</ows:Identifier><Style><ows:Title>Faded</ows:Title>"
           "<ows:Identifier>faded</ows:Identifier></Style><Style isDefault=\"true\"><ows:Title>Natural</ows:Title>"
           "<ows:Identifier>natural</ows:Identifier></Style><Format>image/tiff</Format><Format>image/png</Format>"
           "<Dimension><ows:Identifier>Time</ows:Identifier><Default>2026</Default><Value>2025</Value>"
           "<Value>2026</Value></Dimension><TileMatrixSetLink><TileMatrixSet>GoogleMapsCompatible</TileMatrixSet>"
           "</TileMatrixSetLink>" +
           resource("ortho") +
           "</Layer><Layer><ows:Title>Old orthophoto</ows:Title><ows:Identifier>old</ows:Identifier><Style>"
           "<ows:Identifier>default</ows:Identifier></Style><Format>image/png</Format><TileMatrixSetLink>"
           "<TileMatrixSet>Pixel</TileMatrixSet></TileMatrixSetLink></Layer><Layer><ows:Title>Relief</ows:Title>"
           "<ows:WGS84BoundingBox><ows:LowerCorner>0 0</ows:LowerCorner><ows:UpperCorner>180 90</ows:UpperCorner>"
           "</ows:WGS84BoundingBox><ows:Identifier>relief</ows:Identifier><Style><ows:Identifier>default"
           "</ows:Identifier></Style><Format>image/png</Format><TileMatrixSetLink><TileMatrixSet>GoogleCRS84Quad"
           "</TileMatrixSet></TileMatrixSetLink><TileMatrixSetLink><TileMatrixSet>GoogleMapsCompatible"
           "</TileMatrixSet></TileMatrixSetLink>" +
           resource("relief") +
           "</Layer><TileMatrixSet><ows:Identifier>GoogleMapsCompatible</ows:Identifier><ows:SupportedCRS>"
           "urn:ogc:def:crs:EPSG:6.18:3:3857</ows:SupportedCRS><WellKnownScaleSet>"
           "urn:ogc:def:wkss:OGC:1.0:GoogleMapsCompatible</WellKnownScaleSet>" +
           matrices(559082264.0287178, "-20037508.3427892 20037508.3427892") +
           "</TileMatrixSet><TileMatrixSet><ows:Identifier>GoogleCRS84Quad</ows:Identifier><ows:SupportedCRS>"
           "urn:ogc:def:crs:EPSG::4326</ows:SupportedCRS>" +
           matrices(559082264.0287178, "180 -180") +
           "</TileMatrixSet><TileMatrixSet><ows:Identifier>Pixel</ows:Identifier><ows:SupportedCRS>"
           "urn:ogc:def:crs:OGC:1.3:CRS84</ows:SupportedCRS><TileMatrix><ows:Identifier>a</ows:Identifier>"
           "<ScaleDenominator>397569609.9759771</ScaleDenominator><TopLeftCorner>-180 90</TopLeftCorner>"
           "<TileWidth>256</TileWidth><TileHeight>256</TileHeight><MatrixWidth>2</MatrixWidth><MatrixHeight>1"
           "</MatrixHeight></TileMatrix><TileMatrix><ows:Identifier>b</ows:Identifier><ScaleDenominator>"
           "132523203.3253257</ScaleDenominator><TopLeftCorner>-180 90</TopLeftCorner><TileWidth>256</TileWidth>"
           "<TileHeight>256</TileHeight><MatrixWidth>5</MatrixWidth><MatrixHeight>3</MatrixHeight></TileMatrix>"
           "</TileMatrixSet></Contents></Capabilities>";
}

LoopbackServer::Answer wmtsAnswer(const LoopbackServer::Request& request, const std::string& address,
                                  const WmtsService& service) {
    const auto value = [&](const char* name) {
        const auto at = request.query.find(name);
        return at == request.query.end() ? std::string{} : at->second;
    };
    LoopbackServer::Answer answer;
    if (request.path == "/capabilities.xml" || value("REQUEST") == "GetCapabilities") {
        answer.type = "application/xml";
        answer.body = capabilitiesOf(address, service);
        return answer;
    }
    int zoom = -1, row = -1, column = -1;
    char set[64] = {}, layer[64] = {}, style[64] = {};
    const bool good = request.path == "/kvp"
                          ? value("SERVICE") == "WMTS" && value("REQUEST") == "GetTile" &&
                                value("VERSION") == "1.0.0" && value("FORMAT") == "image/png" &&
                                std::sscanf(value("TILEMATRIX").c_str(), "%d", &zoom) == 1 &&
                                std::sscanf(value("TILEROW").c_str(), "%d", &row) == 1 &&
                                std::sscanf(value("TILECOL").c_str(), "%d", &column) == 1
                          : std::sscanf(request.path.c_str(), "/rest/%63[^/]/%63[^/]/%63[^/]/%d/%d/%d.png", layer,
                                        style, set, &zoom, &row, &column) == 6;
    const std::size_t equals = service.keyParameter.find('=');
    const bool open = service.keyParameter.empty() || [&] {
        std::string name = service.keyParameter.substr(0, equals);
        for (char& letter : name)
            letter = static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
        return value(name.c_str()) == service.keyParameter.substr(equals + 1);
    }();
    if (!good || !open || zoom < 0 || zoom >= kZooms || row < 0 || column < 0 || row >= 1 << zoom ||
        column >= 1 << zoom) {
        answer.status = !open ? 403 : 400;
        answer.type = "text/xml";
        answer.body = "<ExceptionReport xmlns=\"http://www.opengis.net/ows/1.1\"><Exception exceptionCode=\"" +
                      std::string{good ? "TileOutOfRange" : "InvalidParameterValue"} + "\"/></ExceptionReport>";
        return answer;
    }
    answer.body = tilePng(zoom, column, row);
    return answer;
}

} // namespace fencewright::test
