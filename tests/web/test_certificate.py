"""The certificate of our making: good for this machine's names and nothing else."""

from __future__ import annotations

import socket
import ssl
import stat
import threading
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from puttwright.web.certificate import (
    LASTS,
    Certificate,
    CertificateUnusable,
    given_certificate,
    own_certificate,
)

NAMES = ("127.0.0.1", "shop.local")
NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
AT_ANY_TIME = 0x200000  # X509_V_FLAG_NO_CHECK_TIME: the handshake would go by today's clock


@pytest.fixture
def made(tmp_path: Path) -> Certificate:
    return own_certificate(tmp_path / "tls", names=NAMES, now=NOW)


def _greeted(certificate: Certificate, name: str) -> str:
    """What a client that trusts the authority gets to see under a name, over a real connection."""
    serving = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    serving.load_cert_chain(certificate.file, certificate.key)
    trusting = ssl.create_default_context(cadata=certificate.authority.decode())
    trusting.verify_flags |= ssl.VERIFY_X509_STRICT | AT_ANY_TIME
    here, there = socket.socketpair()

    def answer() -> None:
        try:
            with serving.wrap_socket(there, server_side=True) as secured:
                secured.sendall(b"hello")
        except OSError:
            there.close()

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        with trusting.wrap_socket(here, server_hostname=name) as secured:
            return secured.recv(5).decode()
    finally:
        here.close()
        thread.join()


@pytest.mark.parametrize("name", NAMES)
def test_who_trusts_the_authority_is_greeted(made: Certificate, name: str) -> None:
    assert _greeted(made, name) == "hello"


def test_under_another_name_it_is_refused(made: Certificate) -> None:
    with pytest.raises(ssl.SSLCertVerificationError):
        _greeted(made, "elsewhere.example")


def test_the_authority_may_vouch_for_nothing_else_and_its_key_is_gone(made: Certificate) -> None:
    from cryptography import x509
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    authority = x509.load_pem_x509_certificate(made.authority)
    only = authority.extensions.get_extension_for_class(x509.NameConstraints)
    assert only.critical
    said = {str(each.value) for each in only.value.permitted_subtrees}
    assert said == {"127.0.0.1/32", "shop.local"}
    keys = [load_pem_private_key(made.key.read_bytes(), None).public_key()]
    assert authority.public_key() not in keys
    assert sorted(path.name for path in made.key.parent.iterdir()) == [
        "authority.pem",
        "certificate.pem",
        "key.pem",
    ]
    assert stat.S_IMODE(made.key.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize(
    ("names", "later", "same"),
    [
        (NAMES, timedelta(days=1), True),
        (NAMES[:1], timedelta(0), True),
        ((*NAMES, "10.0.0.2"), timedelta(0), False),
        (NAMES, LASTS - timedelta(days=10), False),
    ],
    ids=["next-day", "fewer-names", "another-name", "nearly-over"],
)
def test_it_is_made_anew_only_when_it_must_be(
    made: Certificate, names: tuple[str, ...], later: timedelta, same: bool
) -> None:
    again = own_certificate(made.key.parent, names=names, now=NOW + later)
    assert (again.fingerprint == made.fingerprint) is same


def test_a_damaged_one_is_made_anew(made: Certificate) -> None:
    made.key.write_bytes(b"")
    assert own_certificate(made.key.parent, names=NAMES, now=NOW).fingerprint != made.fingerprint


def test_one_that_is_given_is_taken(made: Certificate) -> None:
    taken = given_certificate(made.file, made.key)
    assert taken.fingerprint == made.fingerprint
    assert len(taken.fingerprint) == 32 * 3 - 1
    assert taken.authority == b""


@pytest.mark.parametrize(
    ("spoil", "reason"),
    [
        (lambda made, _: made.file.unlink(), "no such file"),
        (lambda made, _: made.file.write_text("x"), "no certificate"),
        (lambda made, other: made.key.write_bytes(other.key.read_bytes()), "key is not its own"),
    ],
    ids=["missing", "nonsense", "another-key"],
)
def test_one_that_cannot_be_used_is_told(
    made: Certificate,
    tmp_path: Path,
    spoil: Callable[[Certificate, Certificate], None],
    reason: str,
) -> None:
    spoil(made, own_certificate(tmp_path / "other", names=NAMES, now=NOW))
    with pytest.raises(CertificateUnusable, match=reason):
        given_certificate(made.file, made.key)
