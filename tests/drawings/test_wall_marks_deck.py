"""The deck on the crew's phone: the figures of deck.pdf, zones drawn as there, and boxes that keep what is nailed."""

from __future__ import annotations

import dataclasses
import io
import re
from collections.abc import Callable

import pypdf
import pytest
from playwright.sync_api import Page, expect

from drawings.phone import Phone
from export.deck_plan.sheets import deck_pdf
from framing.run import CAUTION, Run, make_run

SAMPLES = ("cottage", "hip_house", "garage_wing")
WIDTHS = (320, 390)


def sheet(run: Run) -> str:
    """The text of deck.pdf, its white space made single."""
    pages = pypdf.PdfReader(io.BytesIO(deck_pdf(run))).pages
    return re.sub(r"\s+", " ", " ".join(p.extract_text() for p in pages))


def texts(page: Page, selector: str) -> list[str]:
    return [re.sub(r"\s+", " ", text) for text in page.locator(selector).all_text_contents()]


@pytest.mark.parametrize("name", SAMPLES)
def test_the_phone_says_of_each_zone_what_the_sheet_for_the_roof_says(
    phone: Phone, sample_run: Callable[[str], Run], name: str
) -> None:
    run = sample_run(name)
    page, paper = phone.open(run), sheet(run)
    cards = page.locator("#deck .zone").all()
    assert len(cards) == len(run.cover.deck.zones)
    for card in cards:
        zone = card.locator("h3").text_content() or ""
        psf, area = re.findall(r"\d+", card.locator(".top p").text_content() or "")
        nails = re.findall(r'\d"', " ".join(card.locator(".nails").all_text_contents())) or ["not given"]
        assert " ".join((zone, psf, *nails, area)) in paper
    for words in [*texts(page, "#deck-inside > ul:not(.zones) > li"), *texts(page, "#deck-inside > p")]:
        assert words in paper
    assert CAUTION in texts(page, "#deck .caution")


def test_the_nails_of_the_hip_house_are_6_in_inside_and_4_in_on_its_overhang(
    phone: Phone, sample_run: Callable[[str], Run]
) -> None:
    # By hand: 91 psf x 2 ft = 182 lb a foot of truss; a nail holds 81 lb: 12 x 81 / 182 = 5.3 in., so 4 in.
    # 66 psf x 2 ft = 132 lb a foot: 7.4 in., so the crew's 6 in.
    page = phone.open(sample_run("hip_house"))
    nails = dict(zip(texts(page, "#deck h3"), texts(page, "#deck .nails"), strict=False))
    where = "apart on every truss and along both sides of each joint"
    assert nails == {
        "zone 1": f'6" {where}',
        "zone 2": f'6" {where}',
        "zone 3": f'6" {where}',
        "overhang, zone 3": f'4" {where}',
    }


def test_a_nailed_zone_stays_ticked_and_says_by_whom(phone: Phone, sample_run: Callable[[str], Run]) -> None:
    page = phone.open(sample_run("hip_house"))
    page.locator("#by").fill("Rosa")
    page.locator(".nailed").nth(2).tap()
    expect(page.locator("#deck-count")).to_have_text("1 of 4 zones nailed.")
    page.reload()
    expect(page.locator("#deck-count")).to_have_text("1 of 4 zones nailed.")
    assert [box.is_checked() for box in page.locator(".nailed input").all()] == [False, False, True, False]
    expect(page.locator("#deck .zone").nth(2).locator(".stamp")).to_contain_text("by Rosa")
    page.locator(".nailed").nth(2).tap()
    page.reload()
    expect(page.locator("#deck-count")).to_have_text("0 of 4 zones nailed.")


def test_a_tick_is_not_taken_over_where_a_later_plan_pulls_harder(
    phone: Phone, sample_run: Callable[[str], Run]
) -> None:
    run = sample_run("hip_house")
    page = phone.open(run)
    page.locator(".nailed").nth(0).tap()
    page.locator(".pick-set").first.tap()
    expect(page.locator("#deck-count")).to_have_text("1 of 4 zones nailed.")
    project = dataclasses.replace(run.plan.project, revision="B")
    same = dataclasses.replace(run.plan, project=project)
    windier = dataclasses.replace(same, wind=dataclasses.replace(run.plan.wind, speed_mph=180.0))
    expect(phone.open(make_run(same, run.schedule.catalogue)).locator("#deck-count")).to_have_text(
        "1 of 4 zones nailed."
    )
    expect(phone.open(make_run(windier, run.schedule.catalogue)).locator("#deck-count")).to_have_text(
        "0 of 4 zones nailed."
    )


def test_nothing_is_ticked_where_the_nails_are_not_given(phone: Phone, sample_run: Callable[[str], Run]) -> None:
    page = phone.open(sample_run("garage_wing"))
    assert page.locator(".nailed").count() == 0
    assert set(texts(page, "#deck .nails")) == {"Nails: not given"}
    assert "Ask the truss plant" in " ".join(texts(page, "#deck-inside > p"))


def test_damaged_deck_ticks_in_the_store_do_no_harm(phone: Phone, sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    page = phone.open(run)
    for deck in ("7", "null", '"zone 1"', '{"zone 1": 3, "zone 2": {"done": "yes"}}', '{"zone 1": {"done": true}}'):
        kept = f'{{"project": "{run.plan.project.name}", "rows": {{}}, "deck": {deck}}}'
        page.evaluate(
            "([key, kept]) => localStorage.setItem(key, kept)", [f"strapline wall marks {run.fingerprint}", kept]
        )
        page.reload()
        expect(page.locator("#deck-count")).to_have_text("0 of 4 zones nailed.")


@pytest.mark.parametrize("width", WIDTHS)
def test_the_deck_fits_the_phone_and_its_boxes_a_glove(
    phone: Phone, sample_run: Callable[[str], Run], width: int
) -> None:
    page = phone.open(sample_run("cottage"))
    page.set_viewport_size({"width": width, "height": 844})
    assert page.evaluate("document.documentElement.scrollWidth") == width
    cut = """[...document.querySelectorAll("#deck *")]
        .filter(e => e.clientWidth > 1 && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline")
        .map(e => e.className || e.tagName)"""
    assert page.evaluate(cut) == []
    # 44 px: the larger of the two target sizes of WCAG 2.2, 2.5.5 (from memory).
    sizes = """[...document.querySelectorAll(".nailed, .jump")].map(e => e.getBoundingClientRect())
        .map(b => Math.min(b.width, b.height))"""
    assert min(page.evaluate(sizes)) >= 44
    letters = "Math.min(...[...document.querySelectorAll('#deck svg text')].map(e => e.getBoundingClientRect().height))"
    assert page.evaluate(letters) >= 12


def test_the_link_brings_the_deck_into_view_and_paper_has_it_with_its_ticks(
    phone: Phone, sample_run: Callable[[str], Run]
) -> None:
    page = phone.open(sample_run("hip_house"))
    page.locator(".jump").tap()
    expect(page.locator("#deck-name")).to_be_in_viewport()
    page.locator(".nailed").nth(1).tap()
    expect(page.locator("#deck-count")).to_have_text("1 of 4 zones nailed.")
    page.evaluate("drawPaper()")
    nailed = texts(page, "#paper .deck table:first-child tbody td:last-child")
    assert [words.startswith("Ticked 2") for words in nailed] == [False, True, False, False]
    assert all(CAUTION in words for words in texts(page, "#paper .deck tfoot"))
    assert page.locator("#paper .deck svg").count() == 5
