#include "desktop/panels/word_match.h"

#include <QRegularExpression>
#include <QStringList>

#include <algorithm>

namespace fencewright::desktop {
namespace {

constexpr int kWholeText = -10;
constexpr int kTextBegins = -5;
constexpr int kInside = 2;
constexpr int kInitials = 3;
constexpr int kLettersInOrder = 4;
constexpr int kOneSlip = 5;
constexpr int kShortestForSlip = 4;

QString folded(const QString& text) {
    QString plain;
    for (const QChar letter : text.normalized(QString::NormalizationForm_KD))
        if (letter.category() != QChar::Mark_NonSpacing)
            plain += letter.toCaseFolded();
    return plain;
}

QStringList wordsOf(const QString& text) {
    static const QRegularExpression gap{QStringLiteral("[^\\p{L}\\p{N}]+")};
    return text.split(gap, Qt::SkipEmptyParts);
}

/// The word's letters stand in the other in this order, from its first on.
bool lettersInOrder(const QString& typed, const QString& word) {
    if (typed.size() < 2 || word.isEmpty() || typed[0] != word[0])
        return false;
    qsizetype at = 0;
    for (const QChar letter : typed) {
        at = word.indexOf(letter, at);
        if (at < 0)
            return false;
        ++at;
    }
    return true;
}

/// The word begins with what was meant: a letter wrong, missing, too many, or two in each other's place.
bool beginsButForASlip(const QString& typed, const QString& word) {
    if (typed.size() < kShortestForSlip)
        return false;
    qsizetype same = 0;
    while (same < typed.size() && same < word.size() && typed[same] == word[same])
        ++same;
    const QStringView rest = QStringView{typed}.mid(same);
    const QStringView other = QStringView{word}.mid(same);
    if (rest.isEmpty())
        return true;
    const bool wrong = other.mid(1).startsWith(rest.mid(1)) && !other.isEmpty();
    const bool missing = other.mid(1).startsWith(rest);
    const bool tooMany = other.startsWith(rest.mid(1));
    const bool swapped = rest.size() > 1 && other.size() > 1 && rest[0] == other[1] && rest[1] == other[0] &&
                         other.mid(2).startsWith(rest.mid(2));
    return wrong || missing || tooMany || swapped;
}

std::optional<int> misfitOfWord(const QString& typed, const QStringList& words) {
    std::optional<int> best;
    const auto take = [&best](int value) { best = std::min(value, best.value_or(value)); };
    for (const QString& word : words) {
        if (word.startsWith(typed))
            take(0);
        else if (typed.size() > 1 && word.contains(typed))
            take(kInside);
        else if (lettersInOrder(typed, word))
            take(kLettersInOrder);
        else if (beginsButForASlip(typed, word))
            take(kOneSlip);
    }
    return best;
}

} // namespace

std::optional<int> misfit(const QString& typed, const QString& text) {
    const QString sought = folded(typed).trimmed();
    const QString whole = folded(text).trimmed();
    const QStringList typedWords = wordsOf(sought);
    const QStringList words = wordsOf(whole);
    if (typedWords.isEmpty())
        return std::nullopt;
    if (whole == sought)
        return kWholeText;
    if (whole.startsWith(sought))
        return kTextBegins;
    int sum = 0;
    bool all = true;
    for (const QString& word : typedWords) {
        const auto one = misfitOfWord(word, words);
        all = all && one;
        sum += one.value_or(0);
    }
    if (all)
        return sum;
    QString initials;
    for (const QString& word : words)
        initials += word[0];
    if (sought.size() > 1 && initials.startsWith(sought))
        return kInitials;
    return std::nullopt;
}

} // namespace fencewright::desktop
