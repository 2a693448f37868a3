"""One ear for all tests of hearing."""

import pytest
from ears import Ear

from extract.hearing import Hearing


@pytest.fixture(scope="session")
def ear() -> Ear:
    return Ear(Hearing())
