#include "site_file/currency.hpp"

#include <algorithm>

namespace spadework::site_file {

namespace {

constexpr std::string_view two_digits =
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP "
    "CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR "
    "JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN "
    "NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP "
    "SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD UYU UZS VED VES WST XCD YER ZAR ZMW ZWG";
constexpr std::string_view no_digits = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF";
constexpr std::string_view three_digits = "BHD IQD JOD KWD LYD OMR TND";

bool lists(std::string_view codes, std::string_view code) {
    for (std::size_t at = 0; at + 3 <= codes.size(); at += 4) {
        if (codes.substr(at, 3) == code) return true;
    }
    return false;
}

}  // namespace

std::optional<Currency> currency_of(std::string_view code) {
    if (lists(two_digits, code)) return Currency{std::string(code), 2};
    if (lists(no_digits, code)) return Currency{std::string(code), 0};
    if (lists(three_digits, code)) return Currency{std::string(code), 3};
    return std::nullopt;
}

std::vector<std::string> currency_codes() {
    std::vector<std::string> codes;
    for (const std::string_view list : {two_digits, no_digits, three_digits}) {
        for (std::size_t at = 0; at + 3 <= list.size(); at += 4)
            codes.emplace_back(list.substr(at, 3));
    }
    std::sort(codes.begin(), codes.end());
    return codes;
}

}  // namespace spadework::site_file
