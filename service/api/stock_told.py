"""What is asked and told of the trees in stock."""

from __future__ import annotations

from typing import Any, get_args

from service.api.fields import Asked, Told, choice, flag, list_of, name_text, nested, number, text, whole
from service.api.label_asked import ID_PATTERN, ID_WANTS
from service.api.stated import anything
from service.domain.planting_list import Currency

MOST_TREES, HIGHEST_PRICE = 100_000, 100_000
CURRENCIES: tuple[str, ...] = get_args(Currency)
ENTRY: dict[str, Any] = {"id": "GALA-M7-BR", "cultivar": "apple.gala", "quantity": 14}


class StockAsked(Asked):
    """Trees of one kind in stock."""

    id = text("Id of the entry, such as the store's number for it; made up where it is left out.", example="GALA-M7-BR",
              longest=64, pattern=ID_PATTERN, wants=ID_WANTS)  # fmt: skip
    crop = name_text("The crop by id or name; needed only where two crops have a cultivar of the name.",
                     example="apple")  # fmt: skip
    cultivar = name_text("The cultivar by id or name.", example="Gala", required=True)
    rootstock = name_text("The rootstock by id or name; left out for trees on their own roots, or where it is not"
                          " known.", example="M.7")  # fmt: skip
    quantity = whole("Trees to sell; 0 says that there are none just now.", unit="count", example=14, low=0,
                     high=MOST_TREES, required=True)  # fmt: skip
    form = text("How they are sold, in the words of the store.", example="bare root", longest=100)
    size = text("How big they are, in the words of the store.", example="3/4 in caliper", longest=100)
    price = number("Price of one.", unit="currency", example=39.9, low=0, high=HIGHEST_PRICE)
    currency = choice("Currency of the price.", values=CURRENCIES)


class StockEntryAsked(StockAsked):
    """Trees of one kind in stock, under their id."""

    id = text("Id of the entry.", example="GALA-M7-BR", longest=64, pattern=ID_PATTERN, wants=ID_WANTS, required=True)


class StockTold(Told):
    """An entry of the stock."""

    id = text("Id of the entry.", example="GALA-M7-BR", required=True)
    version = whole("Version, raised by each change.", unit="count", example=2, required=True)
    changed_at = text("When it was last changed (UTC); null where it came with the whole store.",
                      example="2026-11-25T10:51:40Z", nullable=True, required=True)  # fmt: skip
    crop = text("Id of the crop; null where the catalogue no longer has the cultivar.", example="apple", nullable=True,
                required=True)  # fmt: skip
    cultivar = text("Id of the cultivar.", example="apple.gala", required=True)
    cultivar_name = text("Its denomination.", example="Gala", nullable=True, required=True)
    rootstock = text("Id of the rootstock.", example="m_7", nullable=True, required=True)
    rootstock_name = text("Its name.", example="M.7", nullable=True, required=True)
    quantity = whole("Trees to sell.", unit="count", example=14, required=True)
    form = text("How they are sold.", example="bare root", nullable=True, required=True)
    size = text("How big they are.", example="3/4 in caliper", nullable=True, required=True)
    price = number("Price of one.", unit="currency", example=39.9, nullable=True, required=True)
    currency = choice("Currency of the price.", values=CURRENCIES, nullable=True, required=True)


class StockListTold(Told):
    """A page of the stock."""

    items = nested(StockTold, "The entries, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6R0FMQQ", longest=400,
                       nullable=True, required=True)  # fmt: skip


class StockChangeTold(Told):
    """One field that changes."""

    field = text("Name of the field.", example="quantity", required=True)
    before = anything("Value that stands; null for none.", example=14, nullable=True, required=True)
    after = anything("Value in the file; null for none.", example=9, nullable=True, required=True)


class StockImportedTold(Told):
    """What a file does to one entry."""

    id = text("Id of the entry.", example="GALA-M7-BR", required=True)
    cultivar = text("Id of the cultivar.", example="apple.gala", required=True)
    does = choice("What happens to it.", values=("new", "changed", "unchanged"), required=True)
    changes = nested(StockChangeTold, "The fields that change; none for a new entry.", many=True, required=True)


class StockImportTold(Told):
    """What a file does to the stock."""

    dry_run = flag("True: nothing was changed, and this is what would happen.", required=True)
    new = whole("Entries that are new.", unit="count", example=3, required=True)
    changed = whole("Entries that change.", unit="count", example=12, required=True)
    unchanged = whole("Entries that stand so already.", unit="count", example=25, required=True)
    entries = nested(StockImportedTold, "Each entry of the file.", many=True, required=True)
    kept_besides = list_of(text("Id of an entry.", example="FIG-5G"), "Entries that the file does not name and that"
                           " stay as they are.", example=["FIG-5G"], required=True)  # fmt: skip
    taken_out = list_of(text("Id of an entry.", example="FIG-1G"), "Entries that the file does not name and that are"
                        " taken out, as the file is the whole stock.", example=[], required=True)  # fmt: skip
