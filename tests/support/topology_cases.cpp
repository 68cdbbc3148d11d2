#include "support/topology_cases.h"

#include <QFile>
#include <QXmlStreamReader>

#include <cctype>
#include <cstdlib>
#include <stdexcept>

namespace fencewright::tests {
namespace {

class WktReader {
public:
    explicit WktReader(std::string_view text) : m_text{text} {}

    std::optional<model::MultiPolygon> read() {
        const auto type = word();
        model::MultiPolygon result;
        if (type == "POLYGON") {
            addPolygon(result);
        } else if (type == "MULTIPOLYGON") {
            if (opens())
                do
                    addPolygon(result);
                while (goesOn());
        } else if (type == "GEOMETRYCOLLECTION") {
            if (opens())
                do {
                    const auto part = word();
                    if (part == "POLYGON")
                        addPolygon(result);
                    else
                        skipParentheses();
                } while (goesOn());
        } else {
            return std::nullopt;
        }
        return result;
    }

private:
    void skipSpace() {
        while (m_at < m_text.size() && std::isspace(static_cast<unsigned char>(m_text[m_at])))
            ++m_at;
    }
    std::string word() {
        skipSpace();
        std::string result;
        while (m_at < m_text.size() && std::isalpha(static_cast<unsigned char>(m_text[m_at])))
            result += static_cast<char>(std::toupper(static_cast<unsigned char>(m_text[m_at++])));
        return result;
    }
    bool take(char wanted) {
        skipSpace();
        if (m_at >= m_text.size() || m_text[m_at] != wanted)
            return false;
        ++m_at;
        return true;
    }
    bool opens() {
        if (take('('))
            return true;
        if (word() != "EMPTY")
            throw std::runtime_error{"not WKT: " + std::string{m_text}};
        return false;
    }
    bool goesOn() {
        if (take(','))
            return true;
        if (!take(')'))
            throw std::runtime_error{"not WKT: " + std::string{m_text}};
        return false;
    }
    double number() {
        skipSpace();
        const std::string rest{m_text.substr(m_at)};
        char* end = nullptr;
        const double value = std::strtod(rest.c_str(), &end);
        if (end == rest.c_str())
            throw std::runtime_error{"not a number: " + rest};
        m_at += static_cast<std::size_t>(end - rest.c_str());
        return value;
    }
    model::Ring ring() {
        model::Ring result;
        if (opens())
            do {
                const double x = number();
                result.corners.push_back({x, number()});
                while (skipSpace(), m_text[m_at] != ',' && m_text[m_at] != ')')
                    (void)number(); // a third value
            } while (goesOn());
        if (result.corners.size() > 1 && result.corners.front() == result.corners.back())
            result.corners.pop_back();
        return result;
    }
    void addPolygon(model::MultiPolygon& result) {
        if (!opens())
            return;
        model::Polygon polygon{ring(), {}};
        while (goesOn())
            if (auto hole = ring(); !hole.corners.empty())
                polygon.holes.push_back(std::move(hole));
        if (!polygon.shell.corners.empty())
            result.parts.push_back(std::move(polygon));
    }
    void skipParentheses() {
        int depth = 0;
        do {
            skipSpace();
            depth += m_text[m_at] == '(' ? 1 : m_text[m_at] == ')' ? -1 : 0;
            ++m_at;
        } while (depth > 0 && m_at < m_text.size());
    }

    std::string_view m_text;
    std::size_t m_at = 0;
};

} // namespace

std::vector<TopologyCase> topologyCases(const std::string& path) {
    QFile file{QString::fromStdString(path)};
    if (!file.open(QIODevice::ReadOnly))
        throw std::runtime_error{"cannot read " + path};
    QXmlStreamReader xml{&file};
    std::vector<TopologyCase> cases;
    TopologyCase current;
    const auto text = [&] { return xml.readElementText().simplified().toStdString(); };
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement)
            continue;
        if (xml.name() == u"case") {
            current = {};
        } else if (xml.name() == u"desc") {
            current.description = text();
        } else if (xml.name() == u"a") {
            current.a = text();
        } else if (xml.name() == u"b") {
            current.b = text();
        } else if (xml.name() == u"op") {
            current.operation = xml.attributes().value("name").toString().toStdString();
            current.expected = text();
            cases.push_back(current);
        }
    }
    if (xml.hasError())
        throw std::runtime_error{path + ": " + xml.errorString().toStdString()};
    return cases;
}

std::optional<model::MultiPolygon> surfaceFromWkt(std::string_view text) { return WktReader{text}.read(); }

} // namespace fencewright::tests
