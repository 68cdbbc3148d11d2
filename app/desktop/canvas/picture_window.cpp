#include "desktop/canvas/picture_window.h"

namespace fencewright::desktop {

QImage windowOf(const QImage& picture, const QRect& devicePixels, QImage::Format format) {
    const uchar* bits = picture.constBits() + qsizetype(devicePixels.top()) * picture.bytesPerLine() +
                        qsizetype(devicePixels.left()) * 4;
    QImage window{bits, devicePixels.width(), devicePixels.height(), picture.bytesPerLine(), format};
    window.setDevicePixelRatio(picture.devicePixelRatio());
    return window;
}

} // namespace fencewright::desktop
