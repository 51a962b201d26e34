"""The part of the journal that holds beds, plants, places, photos and the grower's choices."""

from __future__ import annotations

from pathlib import Path

from triage.model.garden import Bed, Plant

from . import garden
from .part import Part
from .records import CasePlace, Photo


class GardenPart(Part):
    """Beds and plants by name, where each case is, its photos, and settings."""

    def save_bed(self, bed: Bed, *, system: str = "main") -> None:
        """Keep the bed as it is now; what it was before is kept too."""
        with self._database.write() as sql:
            garden.save_named(sql, bed, system, self._now())

    def save_plant(self, plant: Plant, *, system: str = "main") -> None:
        """Keep the plant as it is now; what it was before is kept too."""
        with self._database.write() as sql:
            garden.save_named(sql, plant, system, self._now())

    def beds(self, *, system: str = "main") -> tuple[Bed, ...]:
        """Every bed as last saved, those that are gone too."""
        with self._database.read() as sql:
            return garden.list_named(sql, Bed, system)

    def plants(self, *, system: str = "main") -> tuple[Plant, ...]:
        """Every plant as last saved, those that are gone too."""
        with self._database.read() as sql:
            return garden.list_named(sql, Plant, system)

    def place_case(self, case_id: int, place: CasePlace) -> None:
        """Say in which bed and at which plant a case is; saying it again corrects it."""
        with self._database.write() as sql:
            garden.place_case(sql, case_id, place, self._now())

    def case_place(self, case_id: int) -> CasePlace:
        """Where a case is, as far as anybody said."""
        with self._database.read() as sql:
            return garden.find_place(sql, case_id)

    def places(self) -> dict[int, CasePlace]:
        """Where each case is, as far as anybody said, by its number."""
        with self._database.read() as sql:
            return garden.list_places(sql)

    def add_photo(self, case_id: int, path: Path, on: str, note: str = "") -> int:
        """Keep where a photo lies, with its checksum; the number of the entry. UsageError if it cannot be read."""
        with self._database.write() as sql:
            return garden.add_photo(sql, case_id, path, on, note, self._now())

    def case_photos(self, case_id: int) -> tuple[Photo, ...]:
        """The photos of a case, by day."""
        with self._database.read() as sql:
            return garden.list_photos(sql, case_id)

    def set_setting(self, name: str, value: str) -> None:
        """Keep a choice of the grower's; it can be taken back by another."""
        with self._database.write() as sql:
            garden.set_setting(sql, name, value, self._now())

    def setting(self, name: str) -> str:
        """A choice as last made; '' if it never was."""
        with self._database.read() as sql:
            return garden.find_setting(sql, name)
