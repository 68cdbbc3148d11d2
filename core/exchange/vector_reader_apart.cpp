#include "exchange/database_address.h"
#include "exchange/detail/child_process.h"
#include "exchange/detail/database_table.h"
#include "exchange/detail/wire.h"
#include "exchange/vector_reader.h"

#include <signal.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cstring>
#include <memory>
#include <new>
#include <span>

namespace fencewright::exchange {

namespace {

using namespace detail;

constexpr std::chrono::milliseconds kTick{100};
constexpr std::chrono::milliseconds kFarewell{2000};
constexpr std::size_t kHeaderBytes = 1 + sizeof(std::uint64_t);
constexpr int kOpenFiles = 64;
constexpr std::size_t kPieceBytes = std::size_t{1} << 18;

/// Splits the output of the child into its messages.
class Answer {
public:
    explicit Answer(std::size_t byteLimit)
        : m_byteLimit{byteLimit}, m_room{std::make_unique_for_overwrite<char[]>(kRoomBytes)}, m_roomBytes{kRoomBytes} {}

    /// Where the next bytes go. Ends what next() gave.
    std::span<char> room() {
        if (m_begin > 0 && (m_begin == m_end || m_roomBytes - m_end < kRoomBytes / 4)) {
            std::memmove(m_room.get(), m_room.get() + m_begin, m_end - m_begin);
            m_end -= std::exchange(m_begin, 0);
        }
        if (m_roomBytes - m_end < kRoomBytes / 4) {
            auto larger = std::make_unique_for_overwrite<char[]>(2 * m_roomBytes);
            std::memcpy(larger.get(), m_room.get(), m_end);
            m_room = std::move(larger);
            m_roomBytes *= 2;
        }
        return {m_room.get() + m_end, m_roomBytes - m_end};
    }
    void take(std::size_t bytes) { m_end += bytes; }

    struct Part {
        Message kind;
        std::string_view bytes;
    };
    /// The next whole message, or what is there of a piece of a stream; nothing where more bytes are needed.
    std::optional<Part> next() {
        std::string_view there{m_room.get() + m_begin, m_end - m_begin};
        if (m_pieceLeft == 0) {
            if (there.size() < kHeaderBytes)
                return std::nullopt;
            std::uint64_t length = 0;
            std::memcpy(&length, there.data() + 1, sizeof length);
            if (length > m_byteLimit)
                throw Fault{phrase("core", "The answer of the reading program is garbled."), "",
                            phrase("core", "Check that the program is the one that was installed.")};
            there.remove_prefix(kHeaderBytes);
            const auto kind = static_cast<Message>(m_room[m_begin]);
            if (kind != Message::Bytes) {
                if (there.size() < length)
                    return std::nullopt;
                m_begin += kHeaderBytes + length;
                return Part{kind, there.substr(0, length)};
            }
            m_begin += kHeaderBytes;
            m_pieceLeft = length;
        }
        if (there.empty())
            return std::nullopt;
        there = there.substr(0, m_pieceLeft);
        m_begin += there.size();
        m_pieceLeft -= there.size();
        return Part{Message::Bytes, there};
    }

private:
    static constexpr std::size_t kRoomBytes = std::size_t{1} << 20;

    std::size_t m_byteLimit;
    std::unique_ptr<char[]> m_room;
    std::size_t m_roomBytes;
    std::size_t m_begin = 0, m_end = 0; ///< of what was read and not yet given out
    std::uint64_t m_pieceLeft = 0;      ///< of the stream's piece that is being given out
};

void passOn(std::string_view bytes, const Progress& progress) {
    double fraction = 0.0;
    if (bytes.size() < sizeof fraction)
        return;
    std::memcpy(&fraction, bytes.data(), sizeof fraction);
    progress.report(fraction >= 0.0 && fraction <= 1.0 ? fraction : 0.0, bytes.substr(sizeof fraction, 200));
}

Fault outOfTime(const ForeignRequest& request) {
    return {phrase("core", "Reading was given up after %1 seconds.")(request.limits.time.count()), request.read.path,
            phrase("core", "Your document is untouched. The file is damaged, or very large: cut it into parts, or "
                           "convert it to a GeoPackage.")};
}

Fault endedEarly(const ForeignRequest& request, const ChildProcess::Ending& ending) {
    if (ending.signal == SIGXCPU)
        return outOfTime(request);
    const Wording how = ending.signal ? phrase("core", "signal %1, %2")(ending.signal, strsignal(ending.signal))
                                      : phrase("core", "exit code %1")(ending.exitCode);
    return {phrase("core", "The reader crashed on this file (%1).")(how), request.read.path,
            phrase("core", "Your document is untouched. The file is damaged, or the reader has a fault: convert the "
                           "file to another format.")};
}

/// Runs the child to its answer, and hands the bytes of the answer to `decode`.
/// @param take  pieces of a stream before it.
template <class Decode>
auto answerOf(const std::string& reader, const ForeignRequest& request, Message wanted, const Progress& progress,
              Decode decode, const ByteSink& take = {}) {
    progress.report(0.0, phrase("core", "Opening the file"));
    ChildProcess child{reader, "foreign", encode(request)};
    Answer answer{request.limits.memoryBytes};
    const auto until = std::chrono::steady_clock::now() + request.limits.time;
    double fraction = 0.0;
    std::string doing = phrase("core", "Opening the file").english;
    while (true) {
        if (std::chrono::steady_clock::now() > until)
            throw outOfTime(request);
        const std::optional<std::size_t> read = child.read(answer.room(), kTick);
        if (!read) {
            progress.report(fraction, doing);
            continue;
        }
        answer.take(*read);
        while (const auto part = answer.next()) {
            if (part->kind == Message::Progress) {
                passOn(part->bytes, Progress{[&](double share, std::string_view words) {
                           fraction = share;
                           doing = words;
                           return true;
                       }});
                progress.report(fraction, doing);
            } else if (part->kind == Message::Missing) {
                const Fault fault = decodeFault(part->bytes);
                throw MissingCrs{fault.words().problem, fault.words().place, fault.words().remedy};
            } else if (part->kind == Message::Filter) {
                const Fault fault = decodeFault(part->bytes);
                throw FilterFault{fault.words().problem, fault.words().place, fault.words().remedy};
            } else if (part->kind == Message::Failure) {
                throw decodeFault(part->bytes);
            } else if (part->kind == wanted) {
                return decode(part->bytes);
            } else if (part->kind == Message::Bytes && take) {
                take(part->bytes);
            }
        }
        if (*read == 0)
            throw endedEarly(request, child.wait(kFarewell));
    }
}

// ---- The child's side ----

void limit(__rlimit_resource resource, rlim_t soft, rlim_t hard) {
    rlimit now{};
    ::getrlimit(resource, &now);
    const rlimit next{std::min(soft, now.rlim_max), std::min(hard, now.rlim_max)};
    ::setrlimit(resource, &next);
}

void limit(__rlimit_resource resource, rlim_t value) { limit(resource, value, value); }

void confine(const ChildLimits& limits) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    limit(RLIMIT_CORE, 0);
    // The soft limit ends the program with a signal of its own, by which it is known why.
    const auto seconds = static_cast<rlim_t>(limits.time.count());
    limit(RLIMIT_CPU, seconds + 1, seconds + 5);
    limit(RLIMIT_NOFILE, kOpenFiles);
    // A file may not be written at all; who tries gets an error instead of the signal that would end the program.
    ::signal(SIGXFSZ, SIG_IGN);
    limit(RLIMIT_FSIZE, 0);
#if !defined(__SANITIZE_ADDRESS__)
    // The address sanitizer reserves terabytes of addresses that it never uses: a program under it cannot be limited
    // so.
    limit(RLIMIT_AS, static_cast<rlim_t>(limits.memoryBytes));
#endif
}

bool writeAll(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(STDOUT_FILENO, bytes.data(), bytes.size());
        if (done < 0 && errno == EINTR)
            continue;
        if (done <= 0)
            return false;
        bytes.remove_prefix(static_cast<std::size_t>(done));
    }
    return true;
}

bool send(Message kind, std::string_view bytes) {
    const std::uint64_t length = bytes.size();
    char header[kHeaderBytes];
    header[0] = static_cast<char>(kind);
    std::memcpy(header + 1, &length, sizeof length);
    return writeAll({header, sizeof header}) && writeAll(bytes);
}

/// In pieces that neither side needs much memory for.
void stream(std::string_view bytes) {
    for (; !bytes.empty(); bytes.remove_prefix(std::min(bytes.size(), kPieceBytes)))
        if (!send(Message::Bytes, bytes.substr(0, kPieceBytes)))
            throw Cancelled{};
}

std::string readAll() {
    std::string bytes;
    char block[4096];
    ssize_t count = 0;
    while ((count = ::read(STDIN_FILENO, block, sizeof block)) > 0)
        bytes.append(block, static_cast<std::size_t>(count));
    return bytes;
}

/// Tells the parent now and then; a parent that no longer listens has no use for the rest.
Progress toParent() {
    auto last = std::chrono::steady_clock::now() - kTick;
    return Progress{[last](double fraction, std::string_view doing) mutable {
        const auto now = std::chrono::steady_clock::now();
        if (now - last < kTick)
            return true;
        last = now;
        std::string bytes(sizeof fraction, '\0');
        std::memcpy(bytes.data(), &fraction, sizeof fraction);
        return send(Message::Progress, bytes.append(doing));
    }};
}

} // namespace

VectorDescription describeVectorApart(const std::string& reader, const std::string& path, const ChildLimits& limits,
                                      const Progress& progress) {
    ReadRequest request;
    request.path = path;
    return describeDatabaseApart(reader, request, limits, progress);
}

VectorDescription describeDatabaseApart(const std::string& reader, const ReadRequest& request,
                                        const ChildLimits& limits, const Progress& progress) {
    return answerOf(reader, {ForeignRequest::Kind::Describe, request, limits}, Message::Description, progress,
                    [](std::string_view bytes) { return decodeDescription(bytes); });
}

std::string stateOfTableApart(const std::string& reader, const ReadRequest& request, const ChildLimits& limits,
                              const Progress& progress) {
    return answerOf(reader, {ForeignRequest::Kind::State, request, limits}, Message::State, progress,
                    [](std::string_view bytes) { return std::string{bytes}; });
}

void checkFilterApart(const std::string& reader, const ReadRequest& request, const ChildLimits& limits,
                      const Progress& progress) {
    answerOf(reader, {ForeignRequest::Kind::CheckFilter, request, limits}, Message::End, progress,
             [](std::string_view) {});
}

VectorContent readVectorApart(const std::string& reader, const ReadRequest& request, const ChildLimits& limits,
                              const Progress& progress) {
    return answerOf(reader, {ForeignRequest::Kind::Read, request, limits}, Message::Content, progress,
                    [](std::string_view bytes) { return decodeContent(bytes); });
}

void streamVectorApart(const std::string& reader, const ReadRequest& request, const ChildLimits& limits,
                       const ByteSink& take, const Progress& progress) {
    answerOf(
        reader, {ForeignRequest::Kind::Stream, request, limits}, Message::End, progress, [](std::string_view) {}, take);
}

int answerForeignRequest(const StreamedReading& streamed) {
    bool sent = false;
    std::string path;
    try {
        const ForeignRequest request = decodeRequest(readAll());
        path = request.read.path;
        confine(request.limits);
        const bool database = isDatabaseAddress(path);
        if (database)
            speakTo(parseDatabaseAddress(path), request.read.password, request.limits.time);
        switch (request.kind) {
        case ForeignRequest::Kind::Describe:
            sent = send(Message::Description,
                        encode(database ? describeDatabase(request.read) : describeVector(request.read.path)));
            break;
        case ForeignRequest::Kind::State:
            sent = send(Message::State, stateOfTable(request.read));
            break;
        case ForeignRequest::Kind::CheckFilter:
            checkFilter(request.read, toParent());
            sent = send(Message::End, {});
            break;
        case ForeignRequest::Kind::Read:
            sent = send(Message::Content, encode(readVector(request.read, toParent())));
            break;
        case ForeignRequest::Kind::Stream:
            if (!streamed)
                throw Fault{phrase("core", "This program does not answer as a stream."), path,
                            phrase("core", "Check that the program is the one that was installed.")};
            streamed(request.read, stream, toParent());
            sent = send(Message::End, {});
        }
    } catch (const MissingCrs& fault) {
        sent = send(Message::Missing, encode(static_cast<const Fault&>(fault)));
    } catch (const FilterFault& fault) {
        sent = send(Message::Filter, encode(static_cast<const Fault&>(fault)));
    } catch (const Fault& fault) {
        sent = send(Message::Failure, encode(fault));
    } catch (const std::bad_alloc&) {
        sent = send(Message::Failure, encode(Fault{phrase("core", "The file needs more memory than it may have."), path,
                                                   phrase("core", "Cut it into parts.")}));
    } catch (const std::exception& problem) {
        sent = send(Message::Failure, encode(Fault{phrase("core", "The reader failed: %1.")(problem.what()), path,
                                                   phrase("core", "Convert the file to another format.")}));
    }
    return sent ? 0 : 1;
}

} // namespace fencewright::exchange
