#include "support/reading.h"

#include <QDir>
#include <QFile>

#include <stdexcept>

namespace fencewright::support {

namespace {

template <class Read> Outcome outcomeOf(Read read) {
    try {
        exchange::VectorContent content = read();
        std::string words = std::to_string(content.features.size()) + " of " + std::to_string(content.featuresInFile) +
                            " read.\n" + notesOf(content);
        return {false, std::move(content), std::move(words)};
    } catch (const Fault& fault) {
        return {true, {}, fault.what()};
    }
}

} // namespace

std::string dataPath(const std::string& name) { return std::string{FENCEWRIGHT_TEST_DATA} + "/" + name; }

std::string writtenFile(const QString& folder, const QString& name, const QByteArray& content) {
    QFile file{QDir{folder}.filePath(name)};
    if (!file.open(QIODevice::WriteOnly) || file.write(content) != content.size())
        throw std::runtime_error{"cannot write " + file.fileName().toStdString()};
    return file.fileName().toStdString();
}

exchange::VectorContent read(const std::string& path, const std::string& crs) {
    exchange::ReadRequest request;
    request.path = path;
    request.crs = crs;
    return exchange::readVector(request, {});
}

Outcome tryRead(const exchange::ReadRequest& request) {
    return outcomeOf([&] { return exchange::readVector(request, {}); });
}

Outcome tryReadApart(const exchange::ReadRequest& request, const exchange::ChildLimits& limits) {
    return outcomeOf([&] { return exchange::readVectorApart("/proc/self/exe", request, limits, {}); });
}

std::string notesOf(const exchange::VectorContent& content) {
    std::string text;
    for (const exchange::ReadNote& note : content.notes)
        text += "[" + note.place.english() + "] " + note.words.english() + "\n";
    return text;
}

} // namespace fencewright::support
