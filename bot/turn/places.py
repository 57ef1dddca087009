"""Which number calls for help in a country."""

from __future__ import annotations

# A mobile phone treats both as an emergency call in any network: 3GPP TS 22.101, clause 10.1.
ANYWHERE = ("112", "911")

# Ambulance or general number by ISO 3166-1 country. EU: Directive (EU) 2018/1972, article 109
# (112). Others: the numbers the countries publish with the ITU (E.164 national numbering
# plans), from memory; a mobile call to 112 or 911 is routed there as well.
_BY_COUNTRY: dict[str, str] = {
    **dict.fromkeys(
        ("AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU",
         "IT", "LT", "LU", "LV", "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK", "IS", "CH",
         "TR", "IN"),
        "112",
    ),
    **dict.fromkeys(("GB", "IE"), "999"),
    **dict.fromkeys(("US", "CA", "MX"), "911"),
    "NO": "113", "AU": "000", "NZ": "111", "JP": "119", "KR": "119", "ZA": "112",
    "CN": "120", "SG": "995", "TH": "1669", "AE": "998", "BR": "192", "AR": "107",
}  # fmt: skip


def emergency_numbers(country: str | None) -> tuple[str, ...]:
    """Return the number to call in a country, or the two that any mobile network knows.

    >>> emergency_numbers("IE")
    ('999',)
    >>> emergency_numbers(None)
    ('112', '911')
    """
    found = _BY_COUNTRY.get((country or "").upper())
    return (found,) if found else ANYWHERE
