#include "exchange/checksum.h"

#include "fault.h"

#include <openssl/evp.h>

namespace fencewright::exchange {

std::string sha256(std::string_view bytes) {
    unsigned char digest[EVP_MAX_MD_SIZE];
    unsigned length = 0;
    if (EVP_Digest(bytes.data(), bytes.size(), digest, &length, EVP_sha256(), nullptr) != 1)
        throw Fault{phrase("core", "The checksum could not be computed."), "",
                    phrase("core", "Check the installation of OpenSSL's libcrypto.")};
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string text;
    for (unsigned i = 0; i < length; ++i) {
        text += kDigits[digest[i] >> 4];
        text += kDigits[digest[i] & 15U];
    }
    return text;
}

} // namespace fencewright::exchange
