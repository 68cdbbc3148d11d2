#include "gdal/library.h"

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_http.h>
#include <cpl_vsi.h>
#include <cpl_vsi_virtual.h>
#include <gdal.h>
#include <ogr_srs_api.h>
#include <ogrsf_frmts.h>

#include <mutex>
#include <set>

namespace fencewright::gdal {

namespace {

constexpr GIntBig kBlockCacheBytes = GIntBig{16} << 20; // what is read stays with us in blocks of our own
constexpr std::size_t kMessagesKept = 100;

void* refuseToOpen(void*, const char* path, const char*) {
    CPLError(CE_Failure, CPLE_OpenFailed, "%s: addresses of the network are not opened.", path);
    return nullptr;
}

// The same for addresses that never were file names: a GeoJSON file can name its CRS by a link.
CPLHTTPResult* refuseToFetch(const char* address, CSLConstList, GDALProgressFunc, void*, CPLHTTPFetchWriteFunc, void*,
                             void*) {
    CPLError(CE_Failure, CPLE_HttpResponse, "%s: addresses of the network are not opened.", address);
    auto* result = static_cast<CPLHTTPResult*>(CPLCalloc(1, sizeof(CPLHTTPResult)));
    result->nStatus = 1;
    result->pszErrBuf = CPLStrdup("addresses of the network are not opened");
    return result;
}

// A file can name another one by any of these prefixes (a tile index, a mosaic, a link); each goes to the network. Who
// asks for one gets an ordinary failure to open.
void closeNetworkPrefixes() {
    // Nobody else owns what is replaced; one handler may stand under two prefixes, and a missing one is the disk's own.
    std::set<VSIFilesystemHandler*> replaced;
    VSIFilesystemHandler* const disk = VSIFileManager::GetHandler("/");
    for (const char* prefix :
         {"/vsicurl/", "/vsicurl?", "/vsicurl_streaming/", "/vsis3/", "/vsis3_streaming/", "/vsigs/",
          "/vsigs_streaming/", "/vsiaz/", "/vsiaz_streaming/", "/vsiadls/", "/vsioss/", "/vsioss_streaming/",
          "/vsiswift/", "/vsiswift_streaming/", "/vsiwebhdfs/", "/vsihdfs/"}) {
        VSIFilesystemPluginCallbacksStruct* callbacks = VSIAllocFilesystemPluginCallbacksStruct();
        callbacks->open = refuseToOpen;
        replaced.emplace(VSIFileManager::GetHandler(prefix));
        VSIInstallPluginHandler(prefix, callbacks);
        VSIFreeFilesystemPluginCallbacksStruct(callbacks);
    }
    replaced.erase(disk);
    for (VSIFilesystemHandler* handler : replaced)
        delete handler;
}

// Drivers that take an address, a server or another program for a file name, and would answer even where we never name
// them.
void removeNetworkDrivers() {
    for (const char* name :
         {"HTTP",          "WFS",      "OAPIF", "WMS",        "WCS",           "WMTS",     "PLMosaic",
          "PLSCENES",      "CSW",      "Carto", "AmigoCloud", "Elasticsearch", "NGW",      "GMLAS",
          "EEDA",          "EEDAI",    "DAAS",  "RDA",        "STACIT",        "STACTA",   "PostgreSQL",
          "PostGISRaster", "MySQL",    "ODBC",  "PGeo",       "MSSQLSpatial",  "OCI",      "MongoDBv3",
          "CouchDB",       "Cloudant", "HANA",  "TileDB",     "OGCAPI",        "GPSBabel", "OGR_OGDI"})
        if (GDALDriverH driver = GDALGetDriverByName(name)) {
            GDALDeregisterDriver(driver);
            GDALDestroyDriver(driver);
        }
}

void prepare() {
    // Without side effects on the terminal even before the first capture.
    CPLSetErrorHandler(CPLQuietErrorHandler);
    CPLSetConfigOption("GDAL_DRIVER_PATH", "disable");          // no plug-ins that an environment variable names
    CPLSetConfigOption("GDAL_DISABLE_READDIR_ON_OPEN", "TRUE"); // side-car files are looked for by name, not by listing
    CPLSetConfigOption("GDAL_VRT_ENABLE_PYTHON", "NO");
    CPLSetConfigOption("VRT_SHARED_SOURCE", "NO"); // two mosaics on two threads must not read through one open file
    CPLSetConfigOption("GML_DOWNLOAD_SCHEMA", "NO");
    CPLSetConfigOption("GML_SKIP_RESOLVE_ELEMS", "ALL");  // follows xlink:href otherwise
    CPLSetConfigOption("OGR_SQLITE_LOAD_EXTENSIONS", ""); // an environment variable could name a library to load
    GDALAllRegister();
    removeNetworkDrivers();
    closeNetworkPrefixes();
    CPLHTTPSetFetchCallback(refuseToFetch, nullptr);
    OSRSetPROJEnableNetwork(0);
    GDALSetCacheMax64(kBlockCacheBytes);
}

void CPL_STDCALL keep(CPLErr severity, CPLErrorNum number, const char* text) {
    if (severity != CE_Warning && severity != CE_Failure && severity != CE_Fatal)
        return;
    auto& messages = *static_cast<std::vector<ErrorCapture::Message>*>(CPLGetErrorHandlerUserData());
    if (messages.size() >= kMessagesKept)
        return;
    ErrorCapture::Message message{severity != CE_Warning, number, text ? text : ""};
    const bool known = std::any_of(messages.begin(), messages.end(), [&](const ErrorCapture::Message& other) {
        return other.isError == message.isError && other.text == message.text;
    });
    if (!known)
        messages.push_back(std::move(message));
}

} // namespace

void prepareLibrary() {
    static std::once_flag once;
    std::call_once(once, prepare);
}

void admitDatabases() {
    prepareLibrary();
    RegisterOGRPG();
}

bool admitsDatabases() {
    prepareLibrary();
    return GDALGetDriverByName("PostgreSQL") != nullptr;
}

ErrorCapture::ErrorCapture() {
    prepareLibrary();
    CPLPushErrorHandlerEx(keep, &m_messages);
}

ErrorCapture::~ErrorCapture() { CPLPopErrorHandler(); }

const std::vector<ErrorCapture::Message>& ErrorCapture::messages() const { return m_messages; }

std::string ErrorCapture::firstError(const std::string& otherwise) const {
    for (const Message& message : m_messages)
        if (message.isError)
            return message.text;
    return otherwise;
}

ThreadSettings::~ThreadSettings() {
    for (auto at = m_before.rbegin(); at != m_before.rend(); ++at)
        CPLSetThreadLocalConfigOption(at->first.c_str(), at->second ? at->second->c_str() : nullptr);
}

void ThreadSettings::set(const std::string& key, const std::string& value) {
    const char* before = CPLGetThreadLocalConfigOption(key.c_str(), nullptr);
    m_before.emplace_back(key, before ? std::optional<std::string>{before} : std::nullopt);
    CPLSetThreadLocalConfigOption(key.c_str(), value.c_str());
}

} // namespace fencewright::gdal
