#include "gdal/handles.h"
#include "gdal/library.h"

#include <QtTest>

#include <thread>

using namespace fencewright;

// GDAL's own C functions are called through the declarations below: tests of other modules never see its headers.
extern "C" {
void* GDALOpenEx(const char* path, unsigned flags, const char* const* drivers, const char* const* options,
                 const char* const* siblings);
void* GDALGetDriverByName(const char* name);
int OSRGetPROJEnableNetwork();
void* OSRNewSpatialReference(const char* wkt);
int OSRImportFromUrl(void* crs, const char* url);
void OSRDestroySpatialReference(void* crs);
}

class LibraryTest : public QObject {
    Q_OBJECT

private slots:
    void prepareLibrary_isOnceFromAnyThread() {
        std::vector<std::thread> threads;
        for (int i = 0; i < 4; ++i)
            threads.emplace_back([] { gdal::prepareLibrary(); });
        for (std::thread& thread : threads)
            thread.join();
        QVERIFY(GDALGetDriverByName("GeoJSON"));
        QVERIFY(GDALGetDriverByName("GTiff"));
    }

    void prepareLibrary_leavesNoWayToTheNetwork() {
        gdal::prepareLibrary();
        for (const char* name : {"HTTP", "WFS", "WMS", "OAPIF", "PostgreSQL", "MySQL"})
            QVERIFY2(!GDALGetDriverByName(name), name);
        QVERIFY(!OSRGetPROJEnableNetwork());
        gdal::ErrorCapture said;
        // Port 9 of this very machine: nothing answers there, so that a request would also fail, with other words.
        QVERIFY(!GDALOpenEx("/vsicurl/http://127.0.0.1:9/a.geojson", 0x04 | 0x40, nullptr, nullptr, nullptr));
        QVERIFY2(said.firstError("").find("network are not opened") != std::string::npos, said.firstError("").c_str());
    }

    void prepareLibrary_refusesACrsByLink() {
        gdal::prepareLibrary();
        gdal::ErrorCapture said;
        void* crs = OSRNewSpatialReference(nullptr);
        QVERIFY(OSRImportFromUrl(crs, "http://127.0.0.1:9/crs") != 0);
        OSRDestroySpatialReference(crs);
        QVERIFY2(said.firstError("").find("network are not opened") != std::string::npos, said.firstError("").c_str());
    }

    void errorCapture_keepsWhatIsSaidOnThisThreadOnly() {
        gdal::ErrorCapture outer;
        {
            gdal::ErrorCapture inner;
            QVERIFY(!GDALOpenEx("/nowhere/a.geojson", 0x04 | 0x40, nullptr, nullptr, nullptr));
            QVERIFY(!GDALOpenEx("/nowhere/a.geojson", 0x04 | 0x40, nullptr, nullptr, nullptr));
            QCOMPARE(inner.messages().size(), 1U);
            QVERIFY(inner.messages().front().isError);
            QVERIFY(inner.firstError("").find("/nowhere/a.geojson") != std::string::npos);
        }
        QVERIFY(outer.messages().empty());
        std::thread{[] {
            gdal::ErrorCapture other;
            GDALOpenEx("/nowhere/b.geojson", 0x04 | 0x40, nullptr, nullptr, nullptr);
        }}.join();
        QVERIFY(outer.messages().empty());
        QCOMPARE(outer.firstError("nothing"), "nothing");
    }
};

QTEST_APPLESS_MAIN(LibraryTest)
#include "library_test.moc"
