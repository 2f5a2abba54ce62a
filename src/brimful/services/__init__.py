"""The use cases: the one place where plan, weather, catalogue, journal, clock and files meet."""

from brimful.services.care import CareAnswer, care_desk, care_files, work_out_care, write_care
from brimful.services.designing import Answer, design_files, figures_like, work_out, write_design
from brimful.services.drawing import (
    STEPS,
    BookWish,
    SceneAnswer,
    book_bytes,
    drawing_files,
    scene_with,
    see,
    work_beside,
    write_book,
    write_drawings,
)
from brimful.services.journal import (
    Imported,
    Noted,
    NoteWish,
    entries_of,
    export_journal,
    import_journal,
    journal_of,
    journal_place,
    note,
    spots,
    system_of,
    withdraw,
)
from brimful.services.opening import Opened, is_sound, open_plan
from brimful.services.places import Spot, spot_named, spots_of
from brimful.services.planting import PlantingAnswer, planting_desk, swaps_for, work_out_planting
from brimful.services.report import ReportAnswer, work_out_report
from brimful.services.saving import save_all, save_whole
from brimful.services.season import SeasonAnswer, season_files, season_of_opened, work_out_season, write_season
from brimful.services.starting import example, write_starter
from brimful.services.today import TodayAnswer, told_of, work_out_today
from brimful.services.weather import fetch_weather

__all__ = [
    "STEPS",
    "Answer",
    "BookWish",
    "CareAnswer",
    "Imported",
    "NoteWish",
    "Noted",
    "Opened",
    "PlantingAnswer",
    "ReportAnswer",
    "SceneAnswer",
    "SeasonAnswer",
    "Spot",
    "TodayAnswer",
    "book_bytes",
    "care_desk",
    "care_files",
    "design_files",
    "drawing_files",
    "entries_of",
    "example",
    "export_journal",
    "fetch_weather",
    "figures_like",
    "import_journal",
    "is_sound",
    "journal_of",
    "journal_place",
    "note",
    "open_plan",
    "planting_desk",
    "save_all",
    "save_whole",
    "scene_with",
    "season_files",
    "season_of_opened",
    "see",
    "spot_named",
    "spots",
    "spots_of",
    "swaps_for",
    "system_of",
    "told_of",
    "withdraw",
    "work_beside",
    "work_out",
    "work_out_care",
    "work_out_planting",
    "work_out_report",
    "work_out_season",
    "work_out_today",
    "write_book",
    "write_care",
    "write_design",
    "write_drawings",
    "write_season",
    "write_starter",
]
