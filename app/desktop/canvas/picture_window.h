#pragma once

#include <QImage>
#include <QRect>

namespace fencewright::desktop {

/// A part of a picture, without a copy. Must not outlive it.
/// @param devicePixels  lies in the picture
/// @param format  how its pixels are read: 32 bits each, as the picture's own.
QImage windowOf(const QImage& picture, const QRect& devicePixels, QImage::Format format);

} // namespace fencewright::desktop
