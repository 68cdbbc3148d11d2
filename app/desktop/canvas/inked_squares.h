#pragma once

#include <QImage>
#include <QRect>

#include <vector>

namespace fencewright::desktop {

/// Which squares of a picture have anything on them: to lay the others over what is beneath takes time for nothing.
class InkedSquares {
public:
    /// What lies in the rectangle has been painted anew.
    /// @param picture  32 bits a pixel; of another size than before: all of it is looked at.
    void look(const QImage& picture, const QRect& devicePixels);
    /// All that has anything on it, in device pixels: rectangles that do not overlap.
    std::vector<QRect> rectangles() const;

private:
    QRect square(int column, int row) const;

    QSize m_size; ///< of the picture
    int m_columns = 0;
    std::vector<bool> m_inked; ///< row by row
};

} // namespace fencewright::desktop
