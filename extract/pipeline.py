"""The flow on one screen: a narration is heard, parts are found, put together and checked."""

from functools import cache
from typing import Any

from extract.narration import Narration
from extract.record.model import Record
from extract.settings import DEFAULT, Settings
from extract.vocabulary import UserWords


@cache
def pipeline(user: UserWords = DEFAULT.words) -> Any:
    """A spaCy pipeline of all recognisers: `pipeline()(text).spans` holds what they found."""
    import spacy

    from extract.components import NAMES

    config: dict[str, dict[str, Any]] = {
        "partsaloud_hearing": {
            "mishearings": {meant: list(ways) for meant, ways in user.mishearings.items()},
            "makers": {maker: list(user.sounds.get(maker, ())) for maker in user.all_makers},
        },
        "partsaloud_kinds": {"nicknames": {k: list(names) for k, names in user.nicknames.items()}},
        "partsaloud_roles": {"roles": {k: list(said) for k, said in user.roles.items()}},
        "partsaloud_makers": {"makers": list(user.all_makers)},
    }
    nlp = spacy.blank("en")
    for name in NAMES:
        nlp.add_pipe(name, config=config.get(name, {}))
    return nlp


def draft(narration: Narration, settings: Settings = DEFAULT) -> Record:
    """The draft record of a narration, with the words and the limits of a user's `settings`."""
    from extract.assembly import assemble
    from extract.hearing.makers import flag_makers
    from extract.plausibility import flag_record
    from extract.settle import settle

    doc = pipeline(settings.words)(narration.text)
    record = assemble(doc, narration)
    flag_record(record, settings.limits)
    settle(record)
    flag_makers(record)
    return record
