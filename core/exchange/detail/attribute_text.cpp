#include "exchange/detail/attribute_text.h"

#include "exchange/detail/text_encoding.h"
#include "units/number_notation.h"

#include <ogr_api.h>

#include <cstdio>

namespace fencewright::exchange::detail {

namespace {

constexpr std::size_t kMostFields = 1000;

std::string isoTime(OGRFeatureH feature, int column, OGRFieldType type) {
    int year = 0, month = 0, day = 0, hour = 0, minute = 0, zone = 0;
    float second = 0;
    OGR_F_GetFieldAsDateTimeEx(feature, column, &year, &month, &day, &hour, &minute, &second, &zone);
    char date[40];
    char time[40];
    std::snprintf(date, sizeof date, "%04d-%02d-%02d", year, month, day);
    std::snprintf(time, sizeof time, "%02d:%02d:%02d", hour, minute, static_cast<int>(second));
    if (type == OFTDate)
        return date;
    if (type == OFTTime)
        return time;
    std::string text = std::string{date} + "T" + time;
    if (zone == 100)
        return text + "Z";
    if (zone > 1) {
        const int minutes = (zone - 100) * 15;
        char offset[40];
        std::snprintf(offset, sizeof offset, "%c%02d:%02d", minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                      std::abs(minutes) % 60);
        text += offset;
    }
    return text;
}

} // namespace

AttributeText::AttributeText(void* layer, std::string encoding, ReadingAccount& account)
    : m_encoding{std::move(encoding)}, m_account{account} {
    OGRFeatureDefnH definition = OGR_L_GetLayerDefn(static_cast<OGRLayerH>(layer));
    const auto count = static_cast<std::size_t>(OGR_FD_GetFieldCount(definition));
    for (std::size_t i = 0; i < std::min(count, kMostFields); ++i)
        m_fields.push_back(clean(OGR_Fld_GetNameRef(OGR_FD_GetFieldDefn(definition, static_cast<int>(i))),
                                 "column " + std::to_string(i + 1)));
    if (count > kMostFields)
        m_account.leftOut(
            "", phrase("core", "%1 columns beyond the first %2 are not read.")(count - kMostFields, kMostFields));
}

std::vector<std::string> AttributeText::valuesOf(void* feature, const Wording& place,
                                                 std::optional<std::size_t> unread) {
    std::vector<std::string> values;
    values.reserve(m_fields.size());
    for (std::size_t i = 0; i < m_fields.size(); ++i)
        values.push_back(i == unread ? std::string{} : clean(value(feature, static_cast<int>(i)), place));
    return values;
}

std::string AttributeText::value(void* handle, int column) const {
    auto feature = static_cast<OGRFeatureH>(handle);
    if (!OGR_F_IsFieldSetAndNotNull(feature, column))
        return {};
    OGRFieldDefnH field = OGR_F_GetFieldDefnRef(feature, column);
    switch (const OGRFieldType type = OGR_Fld_GetType(field)) {
    case OFTReal: {
        const double number = OGR_F_GetFieldAsDouble(feature, column);
        return std::isfinite(number) ? units::shortest(number) : std::string{};
    }
    case OFTInteger:
        if (OGR_Fld_GetSubType(field) == OFSTBoolean)
            return OGR_F_GetFieldAsInteger(feature, column) ? "true" : "false";
        return OGR_F_GetFieldAsString(feature, column);
    case OFTDate:
    case OFTTime:
    case OFTDateTime:
        return isoTime(feature, column, type);
    case OFTBinary:
        return "(binary)";
    default:
        return OGR_F_GetFieldAsString(feature, column);
    }
}

std::string AttributeText::clean(std::string text, const Wording& place) {
    const bool foreign = !isUtf8(text);
    if (foreign) {
        const std::string from = m_encoding.empty() ? "ISO-8859-1" : m_encoding;
        text = recoded(text, from).value_or("");
        if (!m_recoded && m_encoding.empty())
            m_account.warn(place, phrase("core", "text that is not UTF-8 is read as ISO-8859-1, here and further on."));
        m_recoded = true;
    }
    if (text.size() > kLongestText) {
        std::size_t end = kLongestText;
        while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0U) == 0x80U)
            --end;
        m_account.changed(place, phrase("core", "a text of %1 KiB is cut to 64 KiB.")(text.size() >> 10));
        text.resize(end);
    }
    return text;
}

} // namespace fencewright::exchange::detail
