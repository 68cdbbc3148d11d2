#include "desktop/canvas/inked_squares.h"

#include "desktop/canvas/picture_window.h"

#include <QPainter>
#include <QtTest>

#include <random>

using namespace fencewright::desktop;

namespace {

QImage blank(const QSize& size) {
    QImage picture{size, QImage::Format_ARGB32_Premultiplied};
    picture.fill(Qt::transparent);
    return picture;
}

/// Laid over a ground by its inked rectangles alone.
QImage laidOver(const QColor& ground, const QImage& picture, const InkedSquares& inked) {
    QImage result{picture.size(), QImage::Format_RGB32};
    result.fill(ground);
    QPainter painter{&result};
    for (const QRect& part : inked.rectangles())
        painter.drawImage(part.topLeft(), windowOf(picture, part, picture.format()));
    return result;
}

QImage laidOver(const QColor& ground, const QImage& picture) {
    QImage result{picture.size(), QImage::Format_RGB32};
    result.fill(ground);
    QPainter{&result}.drawImage(0, 0, picture);
    return result;
}

} // namespace

class InkedSquaresTest : public QObject {
    Q_OBJECT

private slots:
    void blankPicture_hasNone() {
        InkedSquares inked;
        const QImage picture = blank({300, 200});
        inked.look(picture, picture.rect());
        QVERIFY(inked.rectangles().empty());
    }

    void onePixel_isInOneSmallRectangle() {
        InkedSquares inked;
        QImage picture = blank({300, 200});
        picture.setPixel(299, 199, 0x01000000);
        inked.look(picture, picture.rect());
        const std::vector<QRect> parts = inked.rectangles();
        QCOMPARE(parts.size(), std::size_t{1});
        QVERIFY(parts[0].contains(299, 199) && picture.rect().contains(parts[0]));
        QVERIFY(parts[0].width() <= 64 && parts[0].height() <= 64);
    }

    void wipedPart_isNoneAnyMore() {
        InkedSquares inked;
        QImage picture = blank({300, 200});
        picture.fill(Qt::red);
        inked.look(picture, picture.rect());
        QCOMPARE(inked.rectangles(), std::vector<QRect>{picture.rect()});
        picture.fill(Qt::transparent);
        inked.look(picture, picture.rect());
        QVERIFY(inked.rectangles().empty());
    }

    void pictureOfAnotherSize_isLookedAtAsAWhole() {
        InkedSquares inked;
        const QImage first = blank({300, 200});
        inked.look(first, first.rect());
        QImage second = blank({200, 400});
        second.setPixel(150, 390, 0xff00ff00);
        inked.look(second, {0, 0, 1, 1});
        QCOMPARE(inked.rectangles().size(), std::size_t{1});
    }

    // What is seen must be what plain painting of the whole picture shows: QPainter itself is the measure.
    void randomPictures_lookTheSame_andNothingTwice() {
        std::mt19937 random{7};
        const auto below = [&](int limit) { return int(random() % unsigned(limit)); };
        for (int scene = 0; scene < 200; ++scene) {
            QImage picture = blank({1 + below(700), 1 + below(500)});
            InkedSquares inked;
            for (int step = 0; step < 6; ++step) {
                const QRect where{below(picture.width()), below(picture.height()), 1 + below(150), 1 + below(150)};
                QPainter painter{&picture};
                painter.setCompositionMode(QPainter::CompositionMode_Source);
                const bool wipes = below(3) == 0;
                painter.fillRect(where, wipes ? QColor{Qt::transparent} : QColor{200, 20, 90, 1 + below(255)});
                painter.end();
                inked.look(picture, where);
                QCOMPARE(laidOver(Qt::white, picture, inked), laidOver(Qt::white, picture));
                QRegion all;
                qint64 pixels = 0;
                for (const QRect& part : inked.rectangles()) {
                    QVERIFY(picture.rect().contains(part));
                    QVERIFY(!all.intersects(part));
                    all += part;
                    pixels += qint64(part.width()) * part.height();
                }
                QVERIFY(pixels <= qint64(picture.width()) * picture.height());
            }
        }
    }
};

QTEST_MAIN(InkedSquaresTest)
#include "inked_squares_test.moc"
