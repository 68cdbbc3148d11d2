#pragma once

#include "exchange/delivery.h"
#include "exchange/delivery_content.h"
#include "exchange/read_back.h"

#include <string>
#include <string_view>

namespace fencewright::exchange {

/// All that is known of one format that can be written.
struct WritableFormat {
    DeliveryFormatInfo info;
    /// Whether it draws heights, so that DeliveredFeature::drawnHeight is of use to it.
    bool drawsHeights = false;
    /// The whole file.
    std::string (*write)(const DeliveryContent& content) = nullptr;
    /// What a reader finds in such a file. @throws Fault  not such a file: says where.
    ReadBack (*read)(std::string_view text) = nullptr;
};

[[nodiscard]] const WritableFormat& writableFormat(DeliveryFormat format);

} // namespace fencewright::exchange
