#pragma once

#include <QDir>
#include <QString>

namespace fencewright::test {

/// A template for QTemporaryDir: in memory where there is such a folder, so that a thousand flushed files take seconds.
inline QString memoryFolder() {
    return (QDir{"/dev/shm"}.exists() ? QString{"/dev/shm"} : QDir::tempPath()) + "/fencewright-test-XXXXXX";
}

} // namespace fencewright::test
