"""Which tests a worker gets together: those that share what takes long to make, the longest first.

Without it the tests are dealt out one by one, and both workers make the same demonstration, comparison and LibreOffice.
"""

from __future__ import annotations

from zlib import crc32

from xdist.scheduler import LoadScopeScheduling

FIRST = (
    "tests/jobs/test_demo.py",
    "tests/referee/test_second_engine.py",
    "tests/offers",
    "tests/cut_planning",
    "tests/referee/test_in_libreoffice.py",
    "tests/referee/test_recalculated.py",
    "tests/audit/test_other_programs.py",
    "tests/laws",
)
"""Files and folders of tests that stay together, the longest first: the short ones then fill what is left."""
SINGLE = {"tests/audit/test_rules.py": 8, "tests/style/test_grades.py": 4}
"""Files whose tests share only files that are kept for the whole run -> into how many parts they may be divided."""
SLOW = (
    "tests/audit/test_audit.py::test_what_is_put_right_is_clean_again",
    "tests/audit/test_limits.py::test_a_limit_of_prices_uses_and_plans_set_otherwise",
    "tests/audit/test_limits.py::test_a_rule_reads_the_limits_that_it_declares",
    "tests/audit/test_cancelling.py::test_honest_fronts_and_backs_are_asked_about_in_less_than_one_round_of_two_hundred",
    "tests/audit/test_limits.py::test_a_limit_of_what_is_measured_set_otherwise",
    "tests/audit/test_limits.py::test_issuing_judges_by_the_brand_file_beside_the_working_file",
    "tests/audit/test_cancelling.py::test_a_price_that_moved_with_its_parts_and_one_that_stayed_as_it_was",
    "tests/audit/test_samples.py::test_honest_rounds_raise_no_suspicion_and_made_up_ones_do",
    "tests/audit/test_fabric_slips.py::test_a_gross_use_that_does_not_follow_from_the_vendors_own_net_is_told_however_near_it_is",
    "tests/blanking/test_blanking.py::test_no_cell_shows_an_error_whatever_is_typed",
    "tests/cut_planning/test_command.py",
    "tests/cut_planning/test_published.py::test_the_workbook_shows_it_too",
    "tests/drawing/test_areas.py::test_every_place_is_on_the_garment_on_either_side",
    "tests/jobs/test_asking_back.py",
    "tests/jobs/test_demo.py",
    "tests/jobs/test_lay_markers.py",
    "tests/jobs/test_markers.py",
    "tests/jobs/test_returns.py",
    "tests/nesting/test_usual_fill.py",
    "tests/offers/test_offers.py",
    "tests/offers/test_refusals.py",
    "tests/pack/test_beside_a_copy.py",
    "tests/pack/test_filled.py",
    "tests/pack/test_forms.py",
    "tests/pack/test_links.py",
    "tests/pack/test_scripts.py",
    "tests/pack/test_pack.py::test_a_samples_pack_is_short",
    "tests/pack/test_pack.py::test_artwork_is_as_large_as_it_is_made_or_its_scale_is_said",
    "tests/pack/test_pack.py::test_every_text_is_on_paper_at_seven_points_at_least",
    "tests/pack/test_pack.py::test_nothing_of_the_brands_own_is_in_it",
    "tests/pack/test_vectors.py",
    "tests/pack/test_whole.py",
    "tests/published/test_claims.py",
    "tests/published/test_order.py::test_inspection_is_that_of_the_published_plans",
    "tests/published/test_starters.py::test_weight_and_thread_of_a_starter_are_usual",
    "tests/published/test_tight_fit.py::test_at_the_published_figures_nothing_counts_and_above_all_do",
    "tests/published/test_tight_fit.py::test_what_is_not_meant_so_does_not_count_and_what_has_no_point_does",
    "tests/referee/test_valid.py",
    "tests/style/starters/test_sizes.py",
    "tests/style/test_closeups.py",
    "tests/style/test_flats.py",
    "tests/audit/test_samples.py::test_a_tape_that_begins_elsewhere_is_found_in_more_than_nineteen_of_twenty_rounds",
    "tests/audit/test_samples.py::test_honest_measuring_twice_is_asked_about_in_less_than_one_round_in_two_hundred",
    "tests/style/starters/test_workbook.py",
    "tests/style/test_next_season.py",
    "tests/tampering/test_tampering.py::test_every_class_is_found_at_its_cell",
    "tests/test_accept_and_issue.py::test_a_place_that_speaks_of_the_first_vendor_is_its_premises",
    "tests/test_accept_and_issue.py::test_the_copy_goes_to_the_files_vendor_as_the_file_says",
    "tests/test_approvals.py",
    "tests/test_as_built.py::test_a_change_in_the_grid_is_counted_until_it_is_settled",
    "tests/test_asked.py",
    "tests/test_calendar.py::test_steps_in_working_days_are_those_that_numpy_counts",
    "tests/test_console.py::test_every_kind_of_output_goes_to_a_console_without_unicode",
    "tests/test_canaries.py",
    "tests/test_context.py",
    "tests/test_fit_sessions.py",
    "tests/test_graded.py",
    "tests/test_identified.py",
    "tests/test_killed.py::test_a_command_writes_all_its_files_in_one_step",
    "tests/test_leaving.py::test_open_approvals_stop_bulk_and_a_reason_is_read_by_the_brand_alone",
    "tests/test_leaving.py::test_the_day_of_an_issue_is_written_where_it_left_all_the_same",
    "tests/test_many.py",
    "tests/test_marks.py",
    "tests/test_members.py",
    "tests/test_noted.py",
    "tests/test_ready.py",
    "tests/test_revising.py",
    "tests/test_settling.py",
    "tests/test_showing.py",
    "tests/test_tolerances.py::test_a_verdict_needs_a_tolerance",
    "tests/workbook/test_charts_kept.py",
    "tests/workbook/test_exchange_machine.py",
    "tests/test_store.py::test_a_build_is_the_same_byte_for_byte_with_it_and_without",
    "tests/report/test_letter.py::test_what_was_asked_in_earlier_rounds_and_has_no_answer_is_said_again",
    "tests/workbook/test_fractions.py::test_what_is_held_is_shown_or_marked",
    "tests/workbook/test_growing.py",
    "tests/workbook/test_leaving_out.py::test_a_copy_holds_what_its_purpose_needs_and_no_more",
    "tests/workbook/test_leaving_out.py::test_no_formula_reads_a_sheet_that_is_not_there",
    "tests/workbook/test_paper.py::test_no_text_that_is_worked_out_is_cut_off",
    "tests/workbook/test_writing.py::test_two_processes_write_the_same_bytes_wherever_and_whenever",
)
"""Files and tests that run with `-m slow`, for their time alone; the test command has six minutes."""


def scope(nodeid: str) -> str:
    """The name of the group that a test belongs to."""
    path = nodeid.partition("::")[0]
    if path in SINGLE:
        return f"{path} {crc32(nodeid.encode()) % SINGLE[path]}"
    return next((first for first in FIRST if path.startswith(first)), path)


def rank(nodeid: str) -> tuple[int, str]:
    """Where a test's group comes: as in FIRST, then those that are divided, then the others. Within one nothing moves."""
    group = scope(nodeid)
    if group in FIRST:
        return FIRST.index(group), group
    return len(FIRST) + (nodeid.partition("::")[0] not in SINGLE), group


def is_slow(nodeid: str) -> bool:
    """Whether a test stands in SLOW."""
    return nodeid.partition("[")[0] in SLOW or nodeid.partition("::")[0] in SLOW


class Together(LoadScopeScheduling):
    """Gives a worker one group after another, in the order in which they were collected."""

    def schedule(self) -> None:
        """The longest groups first, not those of most tests."""
        self.config.option.loadscopereorder = False
        super().schedule()

    def _split_scope(self, nodeid: str) -> str:
        return scope(nodeid)
