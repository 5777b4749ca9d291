"""The certificate under which devices of the shop's network see this machine.

Without one that is given we make our own: an authority that signs one
certificate, for this machine's names only, and whose key is never written down.
A device that trusts the authority trusts nothing but this machine.
"""

from __future__ import annotations

import hashlib
import ipaddress
import ssl
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Final

from puttwright.errors import CannotWrite, UserError
from puttwright.readers.whole import write_file_whole

if TYPE_CHECKING:
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
    from cryptography.hazmat.primitives.hashes import SHA256

LASTS: Final = timedelta(days=397)
"""Browsers refuse certificates of authorities that last longer (from memory)."""
RENEWED: Final = timedelta(days=14)
"""So long before its end another one is made."""
_END: Final = "-----END CERTIFICATE-----"
_USES: Final = (
    "digital_signature", "content_commitment", "key_encipherment", "data_encipherment",
    "key_agreement", "key_cert_sign", "crl_sign", "encipher_only", "decipher_only",
)  # fmt: skip
_CERTIFICATE, _KEY, _AUTHORITY = "certificate.pem", "key.pem", "authority.pem"


class CertificateUnusable(UserError):
    """The certificate in {file} cannot be used: {reason}."""

    code = "certificate-unusable"
    hint = "--tls-cert names the certificate (with its chain), --tls-key its key, both as PEM."


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """Files of a certificate and its key; ``authority`` signed it when it is of our making."""

    file: Path
    key: Path
    fingerprint: str
    """SHA-256 of the certificate, as browsers show it."""
    authority: bytes = b""


def given_certificate(file: Path, key: Path) -> Certificate:
    """A certificate that the shop brings along.

    Raises
    ------
    CertificateUnusable
        It cannot be read, or the key is not its own.
    """
    try:
        ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(file, key, password="")
        text = file.read_text(encoding="utf-8")
        return Certificate(file=file, key=key, fingerprint=_fingerprint(text))
    except (OSError, ValueError) as error:  # ssl.SSLError is an OSError
        raise CertificateUnusable(file=file, reason=_reason(error)) from error


def own_certificate(folder: Path, *, names: Iterable[str], now: datetime) -> Certificate:
    """The certificate of our making for these names; made anew when it is old or lacks one.

    Parameters
    ----------
    folder
        Where it lies; readable for the user alone.
    names
        What this machine is called, and its addresses.
    now
        From when on it is good.

    Raises
    ------
    CannotWrite
        The folder cannot be written.
    """
    wanted = frozenset(names)
    files = [folder / name for name in (_CERTIFICATE, _KEY, _AUTHORITY)]
    if not _serves(folder, wanted, now):
        _make(folder, wanted, now)
    text = files[0].read_text(encoding="ascii")
    return Certificate(
        file=files[0], key=files[1], fingerprint=_fingerprint(text), authority=files[2].read_bytes()
    )


def _serves(folder: Path, wanted: frozenset[str], now: datetime) -> bool:
    from cryptography import x509  # noqa: PLC0415 - large, only for sharing

    try:
        given_certificate(folder / _CERTIFICATE, folder / _KEY)
        found = x509.load_pem_x509_certificate((folder / _CERTIFICATE).read_bytes())
        authority = x509.load_pem_x509_certificate((folder / _AUTHORITY).read_bytes())
        found.verify_directly_issued_by(authority)
    except Exception:  # noqa: BLE001 - whatever is wrong with it, another one is made
        return False
    held = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    said = {str(each.value) for each in held}
    lasts = found.not_valid_before_utc <= now <= found.not_valid_after_utc - RENEWED
    return lasts and wanted <= said


def _make(folder: Path, names: frozenset[str], now: datetime) -> None:
    from cryptography.hazmat.primitives import serialization as form  # noqa: PLC0415
    from cryptography.hazmat.primitives.asymmetric import ec  # noqa: PLC0415

    authority_key, key = (ec.generate_private_key(ec.SECP256R1()) for _ in range(2))
    known = [_general(name) for name in sorted(names)]
    authority = _authority(authority_key, known, now=now)
    server = _signed(authority, authority_key, key=key, known=known, now=now)
    pem = form.Encoding.PEM
    with _for_the_user_alone(folder):
        private = key.private_bytes(pem, form.PrivateFormat.PKCS8, form.NoEncryption())
        write_file_whole(folder / _KEY, private)
        write_file_whole(folder / _AUTHORITY, authority.public_bytes(pem))
        write_file_whole(folder / _CERTIFICATE, server.public_bytes(pem))


@contextmanager
def _for_the_user_alone(folder: Path) -> Iterator[None]:
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        folder.chmod(0o700)
    except OSError as error:
        raise CannotWrite(path=folder, reason=error.strerror or "no folder there") from error
    yield


def _authority(
    key: EllipticCurvePrivateKey, known: list[x509.GeneralName], *, now: datetime
) -> x509.Certificate:
    from cryptography import x509  # noqa: PLC0415

    made = f"puttwright, made on this machine {now:%Y-%m-%d}"
    name = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, made)])
    usage = {name: name in {"key_cert_sign", "crl_sign"} for name in _USES}
    allowed = list(map(_subtree, known))
    only = x509.NameConstraints(permitted_subtrees=allowed, excluded_subtrees=None)
    return (
        _begun(name, name, key=key, now=now)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(x509.KeyUsage(**usage), critical=True)
        .add_extension(only, critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, _hash())
    )


def _signed(
    authority: x509.Certificate,
    signs: EllipticCurvePrivateKey,
    *,
    key: EllipticCurvePrivateKey,
    known: list[x509.GeneralName],
    now: datetime,
) -> x509.Certificate:
    from cryptography import x509  # noqa: PLC0415
    from cryptography.x509.oid import ExtendedKeyUsageOID  # noqa: PLC0415

    name = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, "puttwright")])
    usage = {name: name == "digital_signature" for name in _USES}
    by = x509.AuthorityKeyIdentifier.from_issuer_public_key(signs.public_key())
    serves = x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH])
    return (
        _begun(name, authority.subject, key=key, now=now)
        .add_extension(x509.SubjectAlternativeName(known), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.KeyUsage(**usage), critical=True)
        .add_extension(serves, critical=False)
        .add_extension(by, critical=False)
        .sign(signs, _hash())
    )


def _begun(
    subject: x509.Name, issuer: x509.Name, *, key: EllipticCurvePrivateKey, now: datetime
) -> x509.CertificateBuilder:
    from cryptography import x509  # noqa: PLC0415

    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))  # a tablet's clock may be behind
        .not_valid_after(now + LASTS - timedelta(days=2))
    )


def _hash() -> SHA256:
    from cryptography.hazmat.primitives.hashes import SHA256  # noqa: PLC0415

    return SHA256()


def _general(name: str) -> x509.GeneralName:
    from cryptography import x509  # noqa: PLC0415

    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _subtree(name: x509.GeneralName) -> x509.GeneralName:
    from cryptography import x509  # noqa: PLC0415

    if isinstance(name, x509.IPAddress):
        return x509.IPAddress(ipaddress.ip_network(str(name.value)))
    return name


def _fingerprint(text: str) -> str:
    first = ssl.PEM_cert_to_DER_cert(text[: text.index(_END) + len(_END)])
    digest = hashlib.sha256(first).hexdigest()
    return ":".join(digest[n : n + 2] for n in range(0, len(digest), 2)).upper()


def _reason(error: Exception) -> str:
    if isinstance(error, ssl.SSLError):
        mismatch = "MISMATCH" in (error.reason or "")
        return "the key is not its own" if mismatch else "it is no certificate with its key"
    return (getattr(error, "strerror", None) or "it is no certificate").lower()
