"""What the app is set to: limits, cookies, and the secret that lives in the data folder."""

from __future__ import annotations

from pathlib import Path

from stash.foreign.picture import LARGEST_BYTES
from stash.workroom.opening import secret_key

FORM_BYTES = 2_000_000
PHOTO_BYTES = LARGEST_BYTES


def settings_for(data: Path) -> dict:
    """Flask's settings for one data folder, which is made if it is not there."""
    return {
        "DATA": data,
        "SECRET_KEY": secret_key(data),
        "MAX_CONTENT_LENGTH": FORM_BYTES,
        "MAX_FORM_MEMORY_SIZE": FORM_BYTES,
        "SESSION_COOKIE_SAMESITE": "Lax",
        "SESSION_COOKIE_HTTPONLY": True,
        "SESSION_COOKIE_NAME": "lengthwise",
        "SEND_FILE_MAX_AGE_DEFAULT": 3600,
    }
