"""The policy of pages with data in them. The digest is that of CSP Level 3, 6.7.2.3 and the worked
example of the specification's section on hash sources (from memory): SHA-256 over the bytes between
the tags, in base64."""

from roundproof.pages.policy import with_digests

PAGE = (
    '<meta http-equiv="Content-Security-Policy" content="default-src \'self\'">'
    '<script src="a.js"></script>{}'
)


def test_data_is_named_by_its_digest() -> None:
    # echo -n "alert('Hello, world.');" | openssl sha256 -binary | openssl base64
    data = '<script type="application/json" id="x">alert(\'Hello, world.\');</script>'
    html = with_digests(PAGE.format(data))
    assert (
        "content=\"script-src 'self' 'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=';"
        " default-src 'self'\""
    ) in html
    twice = with_digests(PAGE.format(data + data + data.replace("json", "ld+json")))
    assert twice.count("sha256-") == 1


def test_a_page_without_data_keeps_its_policy() -> None:
    assert with_digests(PAGE.format("")) == PAGE.format("")
