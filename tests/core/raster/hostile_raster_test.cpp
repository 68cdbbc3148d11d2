#include "raster/dataset.h"

#include "fault.h"
#include "support/made_raster.h"

#include <QtTest>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

using namespace fencewright;
using raster::Dataset;

namespace {

QString broken(const QString& name) { return QStringLiteral(FENCEWRIGHT_TEST_DATA "/imagery/broken/") + name; }

// A little-endian TIFF of one directory, as TIFF 6.0 describes it: 8 bytes of header, then entries of 12 bytes.
QByteArray tiff(const QList<std::array<quint32, 4>>& entries, const QByteArray& pixels = {}) {
    QByteArray bytes{"II*\0\x08\0\0\0", 8};
    const auto put16 = [&](quint32 value) {
        bytes.append(static_cast<char>(value & 255)).append(static_cast<char>(value >> 8 & 255));
    };
    put16(static_cast<quint32>(entries.size()));
    for (const auto& [tag, type, count, value] : entries) {
        put16(tag);
        put16(type);
        put16(count & 65535);
        put16(count >> 16);
        put16(value & 65535);
        put16(value >> 16);
    }
    put16(0);
    put16(0);
    return bytes + pixels;
}

// Tag, type (3: 16 bits, 4: 32 bits), count, value.
QList<std::array<quint32, 4>> plainTags(quint32 width, quint32 height) {
    return {{256, 4, 1, width}, {257, 4, 1, height}, {258, 3, 1, 8},
            {259, 3, 1, 1},     {262, 3, 1, 1},      {273, 4, 1, 200},
            {277, 3, 1, 1},     {278, 4, 1, height}, {279, 4, 1, width * height}};
}

QByteArray pngHeader(quint32 width, quint32 height) {
    QByteArray png{"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR", 16};
    for (const quint32 side : {width, height})
        for (int shift = 24; shift >= 0; shift -= 8)
            png.append(static_cast<char>(side >> shift & 255));
    return png + QByteArray{"\x08\x02\0\0\x01\0\0\0\0\0\0\0\0IDAT", 17};
}

// A listener on this machine that tells whether anybody came.
class Door {
public:
    Door() : m_socket{socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK, 0)} {
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        socklen_t size = sizeof address;
        m_open = bind(m_socket, reinterpret_cast<sockaddr*>(&address), size) == 0 && listen(m_socket, 8) == 0 &&
                 getsockname(m_socket, reinterpret_cast<sockaddr*>(&address), &size) == 0;
        m_port = ntohs(address.sin_port);
    }
    ~Door() { close(m_socket); }
    Door(const Door&) = delete;
    Door& operator=(const Door&) = delete;

    [[nodiscard]] bool isOpen() const { return m_open; }
    [[nodiscard]] int port() const { return m_port; }
    [[nodiscard]] bool anybodyCame() const {
        const int guest = accept(m_socket, nullptr, nullptr);
        if (guest >= 0)
            close(guest);
        return guest >= 0;
    }

private:
    int m_socket;
    bool m_open = false;
    int m_port = 0;
};

} // namespace

class HostileRasterTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    QString write(const QString& name, const QByteArray& bytes) {
        const QString path = m_folder.filePath(name);
        QDir{}.mkpath(QFileInfo{path}.path());
        QFile file{path};
        if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size())
            qFatal("cannot write %s", qPrintable(path));
        return path;
    }
    QString image(const QString& name, int value = 7) {
        test::MadeRaster made;
        made.width = made.height = 64;
        made.crs = "EPSG:25829";
        made.geotransform = {520000, 1, 0, 5117000, 0, -1};
        made.value = [=](int, int, int) { return value; };
        const QString path = m_folder.filePath(name);
        QDir{}.mkpath(QFileInfo{path}.path());
        test::make(made, path.toStdString());
        return path;
    }
    static QByteArray mosaicOf(const QString& source, bool relative, const QByteArray& more = {}) {
        return "<VRTDataset rasterXSize=\"64\" rasterYSize=\"64\">" + more +
               "<VRTRasterBand dataType=\"Byte\" band=\"1\"><SimpleSource><SourceFilename relativeToVRT=\"" +
               QByteArray::number(relative) + "\">" + source.toUtf8() +
               "</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></VRTDataset>";
    }
    // Opens the raster and reads all of it; answers what was said, empty if all went well.
    static QString trouble(const QString& path) {
        try {
            const Dataset dataset{path.toStdString()};
            const auto& description = dataset.description();
            (void)dataset.read({0, 0, static_cast<double>(description.width), static_cast<double>(description.height)},
                               std::min(description.width, 1500), std::min(description.height, 1500));
        } catch (const Fault& fault) {
            if (fault.problem().empty() || fault.place().empty() || fault.remedy().empty())
                return QStringLiteral("INCOMPLETE FAULT: %1").arg(fault.what());
            return QString::fromStdString(fault.place() + ": " + fault.problem());
        }
        return {};
    }

private slots:
    void brokenFiles_areRefusedWithFileAndReason_data() {
        QTest::addColumn<QString>("path");
        QTest::addColumn<QString>("word");
        QTest::newRow("strips cut off") << broken("byte_truncated.tif") << "cannot be decoded";
        QTest::newRow("damaged tile") << broken("rasterio_corrupt.tif") << "cannot be decoded";
        QTest::newRow("not there") << m_folder.filePath("none.tif") << "no such file";
        QTest::newRow("no name") << ""
                                 << "";
        QTest::newRow("address") << "/vsicurl/http://127.0.0.1/a.tif"
                                 << "no such file";
        QTest::newRow("address of a tile server") << "<GDAL_WMS/>"
                                                  << "no such file";
        QTest::newRow("device") << "/dev/null"
                                << "neither a file nor a folder";
        QTest::newRow("empty") << write("empty.tif", {}) << "no raster";
        QTest::newRow("text") << write("text.tif", "This is no picture.\n") << "no raster";
        QTest::newRow("TIFF header alone") << write("header.tif", QByteArray{"II*\0\x08\0\0\0", 8}) << "no raster";
        QTest::newRow("directory beyond the end")
            << write("beyond.tif", QByteArray{"II*\0\xff\xff\xff\x7f", 8}) << "no raster";
        QTest::newRow("no width") << write("zero.tif", tiff(plainTags(0, 10))) << "no raster";
        QTest::newRow("pixels not there") << write("gone.tif", tiff(plainTags(1000, 1000))) << "cannot be decoded";
        QTest::newRow("absurd size, one strip")
            << write("absurd.tif", tiff(plainTags(2'000'000'000, 2'000'000'000))) << "";
        QTest::newRow("absurd width") << write("wide.tif", tiff(plainTags(2'147'483'647, 1))) << "";
        auto tiled = plainTags(2'000'000, 2'000'000);
        tiled.erase(tiled.begin() + 5);
        tiled.erase(tiled.begin() + 6, tiled.end());
        tiled << std::array<quint32, 4>{322, 4, 1, 65536} << std::array<quint32, 4>{323, 4, 1, 65536}
              << std::array<quint32, 4>{324, 4, 1, 200} << std::array<quint32, 4>{325, 4, 1, 10};
        QTest::newRow("tiles of gigabytes") << write("block.tif", tiff(tiled)) << "";
        auto many = plainTags(10, 10);
        many[6][3] = 60'000;
        QTest::newRow("60,000 bands") << write("bands.tif", tiff(many)) << "";
        auto unknown = plainTags(10, 10);
        unknown[3][3] = 4242;
        QTest::newRow("compression nobody knows") << write("compressed.tif", tiff(unknown)) << "";
        QTest::newRow("PNG header alone") << write("header.png", pngHeader(100, 100)) << "";
        QTest::newRow("PNG of absurd size") << write("absurd.png", pngHeader(2'000'000'000, 2'000'000'000)) << "";
        QTest::newRow("interlaced PNG that would need 30 GB") << write("large.png", pngHeader(100'000, 100'000)) << "";
        QTest::newRow("JPEG header alone")
            << write("header.jpg", QByteArray{"\xff\xd8\xff\xe0\0\x10JFIF\0\1\1\0\0\1\0\1\0\0", 20}) << "";
        QTest::newRow("JPEG 2000 signature alone")
            << write("header.jp2", QByteArray{"\0\0\0\x0cjP  \r\n\x87\n", 12}) << "";
        QTest::newRow("database that is none")
            << write("a.mbtiles", QByteArray{"SQLite format 3\0", 16} + QByteArray(1000, 'x')) << "";
        QTest::newRow("GeoPackage that is none")
            << write("a.gpkg", QByteArray{"SQLite format 3\0", 16} + QByteArray(1000, '\0')) << "";
        QTest::newRow("other raster format")
            << write("a.asc", "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 4\n") << "no raster";
        QTest::newRow("description of a tile server")
            << write("wms.xml",
                     "<GDAL_WMS><Service "
                     "name=\"TMS\"><ServerUrl>http://127.0.0.1/${z}/${x}/${y}</ServerUrl></Service></GDAL_WMS>")
            << "no raster";
        QTest::newRow("folder without tiles") << m_folder.path() << "no tiles";
    }
    void brokenFiles_areRefusedWithFileAndReason() {
        QFETCH(QString, path);
        QFETCH(QString, word);
        QElapsedTimer timer;
        timer.start();
        const QString said = path.isEmpty() ? QStringLiteral("(nothing)") : trouble(path);
        if (path.isEmpty())
            QVERIFY_EXCEPTION_THROWN(Dataset(std::string{}), Fault);
        QVERIFY2(!said.isEmpty(), "was read without a word");
        QVERIFY2(!said.startsWith("INCOMPLETE"), qPrintable(said));
        QVERIFY2(said.contains(word, Qt::CaseInsensitive), qPrintable(said));
        if (!path.isEmpty())
            QVERIFY2(said.contains(path), qPrintable(said));
        QVERIFY2(timer.elapsed() < 5000, qPrintable(QString::number(timer.elapsed())));
    }

    void truncatedFiles_areNeverShownAsWhole_data() {
        QTest::addColumn<QString>("driver");
        QTest::addColumn<QString>("suffix");
        QTest::addColumn<QStringList>("options");
        QTest::newRow("GeoTIFF") << "GTiff"
                                 << "tif" << QStringList{"TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64"};
        QTest::newRow("GeoTIFF, LZW") << "GTiff"
                                      << "tif" << QStringList{"COMPRESS=LZW"};
        QTest::newRow("GeoTIFF, JPEG") << "GTiff"
                                       << "tif"
                                       << QStringList{"COMPRESS=JPEG", "TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64"};
        QTest::newRow("COG") << "COG"
                             << "tif" << QStringList{"COMPRESS=DEFLATE", "BLOCKSIZE=128"};
        QTest::newRow("PNG") << "PNG"
                             << "png" << QStringList{};
        QTest::newRow("JPEG") << "JPEG"
                              << "jpg" << QStringList{};
    }
    void truncatedFiles_areNeverShownAsWhole() {
        QFETCH(QString, driver);
        QFETCH(QString, suffix);
        QFETCH(QStringList, options);
        // Noise, so that the bytes of the file are spread over the picture.
        std::mt19937 random{20260514};
        test::MadeRaster made;
        made.driver = driver.toStdString();
        made.width = made.height = 300;
        made.crs = "EPSG:25829";
        made.geotransform = {520000, 1, 0, 5117000, 0, -1};
        made.value = [&](int, int, int) { return static_cast<double>(random() % 256); };
        for (const QString& option : options)
            made.options.push_back(option.toStdString());
        const QString whole = m_folder.filePath("whole." + suffix);
        test::make(made, whole.toStdString());
        QVERIFY2(trouble(whole).isEmpty(), qPrintable(trouble(whole)));
        QFile file{whole};
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray bytes = file.readAll();
        for (const double share : {0.02, 0.1, 0.3, 0.5, 0.7, 0.9}) {
            const auto length = static_cast<qsizetype>(share * static_cast<double>(bytes.size()));
            const QString cut = write("cut." + suffix, bytes.left(length));
            const QString said = trouble(cut);
            QVERIFY2(!said.isEmpty(), qPrintable(QStringLiteral("read without a word at %1").arg(share)));
            QVERIFY2(said.contains(cut), qPrintable(said));
        }
    }

    void damagedFiles_neverCrash() {
        // Bytes of real files overwritten at random; whatever comes out, it is pixels or a fault.
        std::mt19937 random{4711};
        int faults = 0;
        for (const char* name : {"rasterio_RGBA.uint16.tif", "stars_lc.tif", "rasterio_rotated.tif",
                                 "rasterio_alpha.tif", "world_l1.mbtiles"}) {
            QFile file{QStringLiteral(FENCEWRIGHT_TEST_DATA "/imagery/") + name};
            QVERIFY(file.open(QIODevice::ReadOnly));
            const QByteArray bytes = file.readAll();
            const QString suffix = QFileInfo{file}.suffix();
            for (int round = 0; round < 40; ++round) {
                QByteArray damaged = bytes;
                // Headers lie at both ends, and are what damage does most in.
                for (int count = 0; count < 12; ++count) {
                    const auto near = static_cast<qsizetype>(
                        random() % std::min<std::size_t>(600, static_cast<std::size_t>(bytes.size())));
                    const auto anywhere = static_cast<qsizetype>(random() % static_cast<std::size_t>(bytes.size()));
                    const qsizetype position = count % 3 == 0   ? near
                                               : count % 3 == 1 ? bytes.size() - 1 - near
                                                                : anywhere;
                    damaged[position] = static_cast<char>(random());
                }
                const QString said = trouble(write("damaged." + suffix, damaged));
                QVERIFY2(!said.startsWith("INCOMPLETE"), qPrintable(said));
                faults += said.isEmpty() ? 0 : 1;
            }
        }
        QVERIFY(faults > 20);
    }

    void mosaics_thatReachOutAreRefused_data() {
        QTest::addColumn<QString>("path");
        QTest::addColumn<QString>("word");
        image("outside.tif");
        image("m/inside.tif");
        QTest::newRow("a source above") << write("m/above.vrt", mosaicOf("../outside.tif", true))
                                        << "outside the folder";
        QTest::newRow("an absolute source elsewhere")
            << write("m/absolute.vrt", mosaicOf(m_folder.filePath("outside.tif"), false)) << "outside the folder";
        QTest::newRow("a source of the system")
            << write("m/system.vrt", mosaicOf("/etc/hostname", false)) << "outside the folder";
        QFile::link(m_folder.filePath("outside.tif"), m_folder.filePath("m/link.tif"));
        QTest::newRow("a link that leads out")
            << write("m/linked.vrt", mosaicOf("link.tif", true)) << "outside the folder";
        QTest::newRow("an address") << write("m/net.vrt", mosaicOf("/vsicurl/http://127.0.0.1/a.tif", false))
                                    << "not a file on this machine";
        QTest::newRow("a server") << write("m/server.vrt", mosaicOf("http://127.0.0.1/a.tif", false))
                                  << "not a file on this machine";
        QTest::newRow("a tile server") << write("m/tiles.vrt", mosaicOf("&lt;GDAL_WMS&gt;&lt;/GDAL_WMS&gt;", false))
                                       << "not a file on this machine";
        write("m/wms.xml", "<GDAL_WMS></GDAL_WMS>");
        QTest::newRow("a tile server in a file")
            << write("m/tilefile.vrt", mosaicOf("wms.xml", true)) << "is no GeoTIFF";
        QTest::newRow("an archive") << write("m/zip.vrt", mosaicOf("/vsizip/a.zip/a.tif", false))
                                    << "not a file on this machine";
        QTest::newRow("itself") << write("m/self.vrt", mosaicOf("self.vrt", true)) << "contains itself";
        write("m/ring2.vrt", mosaicOf("ring1.vrt", true));
        QTest::newRow("a ring of two") << write("m/ring1.vrt", mosaicOf("ring2.vrt", true)) << "contains itself";
        for (int depth = 1; depth <= 6; ++depth)
            write(QStringLiteral("m/deep%1.vrt").arg(depth),
                  mosaicOf(depth == 1 ? QStringLiteral("inside.tif") : QStringLiteral("deep%1.vrt").arg(depth - 1),
                           true));
        QTest::newRow("six deep") << m_folder.filePath("m/deep6.vrt") << "nested";
        QTest::newRow("missing") << write("m/missing.vrt", mosaicOf("missing.tif", true)) << "not a file";
        QTest::newRow("a reaching mosaic inside a good one")
            << write("m/outer.vrt", mosaicOf("above.vrt", true)) << "outside the folder";
        QTest::newRow("code")
            << write("m/code.vrt",
                     "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\"><VRTRasterBand dataType=\"Byte\" band=\"1\" "
                     "subClass=\"VRTDerivedRasterBand\"><PixelFunctionLanguage>Python</"
                     "PixelFunctionLanguage><PixelFunctionType>x</PixelFunctionType></VRTRasterBand></VRTDataset>")
            << "class";
        QTest::newRow("raw bytes of any file")
            << write("m/raw.vrt",
                     "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\"><VRTRasterBand dataType=\"Byte\" band=\"1\" "
                     "subClass=\"VRTRawRasterBand\"><SourceFilename>/etc/passwd</SourceFilename></VRTRasterBand></"
                     "VRTDataset>")
            << "class";
        QTest::newRow("warped") << write("m/warped.vrt",
                                         "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\" "
                                         "subClass=\"VRTWarpedDataset\"><GDALWarpOptions><SourceDataset>/etc/passwd</"
                                         "SourceDataset></GDALWarpOptions></VRTDataset>")
                                << "class";
        QTest::newRow("source as an attribute")
            << write("m/attribute.vrt",
                     "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\"><VRTRasterBand dataType=\"Byte\" "
                     "band=\"1\"><SimpleSource SourceFilename=\"/etc/passwd\"/></VRTRasterBand></VRTDataset>")
            << "outside the folder";
        QTest::newRow("overviews elsewhere")
            << write("m/overview.vrt",
                     "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\"><VRTRasterBand dataType=\"Byte\" "
                     "band=\"1\"><Overview><SourceFilename>/etc/passwd</SourceFilename></Overview></VRTRasterBand></"
                     "VRTDataset>")
            << "outside the folder";
        QTest::newRow("not closed") << write("m/open.vrt", "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\">")
                                    << "not well-formed";
        QTest::newRow("deep elements") << write("m/elements.vrt", "<VRTDataset rasterXSize=\"4\" rasterYSize=\"4\">" +
                                                                      QByteArray{"<a>"}.repeated(500) +
                                                                      QByteArray{"</a>"}.repeated(500) +
                                                                      "</VRTDataset>")
                                       << "nested";
        QTest::newRow("absurd size") << write("m/absurd.vrt",
                                              mosaicOf("inside.tif", true).replace("\"64\"", "\"2000000000\""))
                                     << "too many";
    }
    void mosaics_thatReachOutAreRefused() {
        QFETCH(QString, path);
        QFETCH(QString, word);
        const QString said = trouble(path);
        QVERIFY2(said.contains(word), qPrintable(said));
        QVERIFY2(!said.startsWith("INCOMPLETE"), qPrintable(said));
    }
    void mosaic_thatStaysInItsFolderIsRead() {
        image("good/sub/inside.tif");
        const QString inner = write("good/sub/inner.vrt", mosaicOf("inside.tif", true));
        const QString outer = write("good/outer.vrt", mosaicOf("sub/inner.vrt", true));
        QVERIFY2(trouble(inner).isEmpty(), qPrintable(trouble(inner)));
        QVERIFY2(trouble(outer).isEmpty(), qPrintable(trouble(outer)));
    }

    void nothing_goesToTheNetwork_data() {
        QTest::addColumn<QString>("kind");
        for (const char* kind :
             {"source", "overviews of a raster", "overviews of a source", "overviews of a tile", "map server",
              "tile server", "capabilities", "mosaic of a map server", "tile of a map server",
              "folder with a map server", "map server in place of a name", "service in place of a name"})
            QTest::newRow(kind) << kind;
    }
    void nothing_goesToTheNetwork() {
        QFETCH(QString, kind);
        const Door door;
        QVERIFY(door.isOpen());
        const QString address = QStringLiteral("/vsicurl/http://127.0.0.1:%1/a.tif").arg(door.port());
        const QByteArray server = "http://127.0.0.1:" + QByteArray::number(door.port());
        // As GDAL's own documentation describes its files of map services (drivers/raster/wms, wmts).
        const QByteArray mapServer =
            "<GDAL_WMS><Service name=\"WMS\"><Version>1.1.1</Version><ServerUrl>" + server +
            "/?</ServerUrl><Layers>a</Layers></Service><DataWindow><UpperLeftX>-180</UpperLeftX><UpperLeftY>90"
            "</UpperLeftY><LowerRightX>180</LowerRightX><LowerRightY>-90</LowerRightY><SizeX>64</SizeX><SizeY>64"
            "</SizeY></DataWindow><BandsCount>3</BandsCount></GDAL_WMS>";
        const QByteArray aside = "<PAMDataset><Metadata domain=\"OVERVIEWS\"><MDI key=\"OVERVIEW_FILE\">" +
                                 address.toUtf8() + "</MDI></Metadata></PAMDataset>";
        QString path;
        if (kind == "source") {
            path = write("net/source.vrt", mosaicOf(address, false));
        } else if (kind == "overviews of a raster") {
            path = image("net/raster.tif");
            write("net/raster.tif.aux.xml", aside);
        } else if (kind == "overviews of a source") {
            image("net/part.tif");
            write("net/part.tif.aux.xml", aside);
            path = write("net/parts.vrt", mosaicOf("part.tif", true));
        } else if (kind == "map server") {
            path = write("net/map.tif", mapServer);
        } else if (kind == "tile server") {
            path = write("net/tms.vrt",
                         QByteArray{mapServer}.replace("\"WMS\"", "\"TMS\"").replace("/?", "/${z}/${x}/${y}.png"));
        } else if (kind == "capabilities") {
            path = write("net/wmts.tif",
                         "<GDAL_WMTS><GetCapabilitiesUrl>" + server + "/wmts</GetCapabilitiesUrl></GDAL_WMTS>");
        } else if (kind == "mosaic of a map server") {
            write("net/part of a mosaic.tif", mapServer);
            path = write("net/mosaic.vrt", mosaicOf("part of a mosaic.tif", true));
        } else if (kind == "tile of a map server") {
            write("net/served/1/1/1.png", mapServer);
            path = m_folder.filePath("net/served");
        } else if (kind == "folder with a map server") {
            image("net/folder/good.tif");
            write("net/folder/bad.tif", mapServer);
            write("net/folder/bad.vrt", mosaicOf(address, false));
            path = m_folder.filePath("net/folder");
        } else if (kind == "map server in place of a name") {
            path = QString::fromUtf8(mapServer);
        } else if (kind == "service in place of a name") {
            path = QString::fromUtf8("WMTS:" + server + "/wmts,layer=a");
        } else {
            path = m_folder.filePath("net/tiles");
            test::MadeRaster made;
            made.driver = "PNG";
            made.width = made.height = 256;
            made.placed = false;
            made.value = [](int, int, int) { return 9; };
            QVERIFY(QDir{}.mkpath(path + "/1/1"));
            test::make(made, (path + "/1/1/1.png").toStdString());
            write("net/tiles/1/1/1.png.aux.xml", aside);
        }
        (void)trouble(path); // refused, or read without what lies elsewhere
        QVERIFY(!door.anybodyCame());
    }

    void brokenTiles_areNamed() {
        QVERIFY(QDir{}.mkpath(m_folder.filePath("tiles/2/1")));
        for (const int row : {0, 1}) {
            test::MadeRaster made;
            made.driver = "PNG";
            made.width = made.height = 256;
            made.placed = false;
            made.value = [](int, int, int) { return 9; };
            test::make(made, m_folder.filePath(QStringLiteral("tiles/2/1/%1.png").arg(row)).toStdString());
        }
        const QString good = m_folder.filePath("tiles");
        QVERIFY2(trouble(good).isEmpty(), qPrintable(trouble(good)));
        QFile tile{m_folder.filePath("tiles/2/1/1.png")};
        QVERIFY(tile.resize(tile.size() / 3));
        QFile::remove(m_folder.filePath("tiles/2/1/1.png.aux.xml"));
        const QString said = trouble(good);
        QVERIFY2(said.contains("2/1/1.png"), qPrintable(said));
    }
};

QTEST_GUILESS_MAIN(HostileRasterTest)
#include "hostile_raster_test.moc"
