"""How wide a text is in the type of the program, so that it can be set without the font at hand.

Advance widths of Inter 4.1 (SIL Open Font License) with tabular digits, in thousandths of the type size, read
from the fonts in `gui/fonts`; `tests/gui/test_paper.py` holds them against Qt. Kerning is left out.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

__all__ = ["shortened", "text_width_mm", "wrapped"]

MM_PER_POINT = 25.4 / 72
_LETTERS = "".join(
    chr(c) for first, end in ((0x20, 0x7F), (0xA0, 0x100), (0x391, 0x3CA)) for c in range(first, end)
)
_LETTERS += "–—‘’“”…−→₂₃€Ω•"
_UNKNOWN, _WIDE = 620, 1000
_THOUSANDTHS = {
    "regular": """
281 278 403 631 638 812 639 222 362 362 500 659 276 460 276 357 648 648 648 648 648 648 648 648 648 648 276
276 659 659 659 507 936 676 651 727 719 598 587 743 740 264 543 652 562 889 753 761 635 761 639 638 642 741
676 949 642 665 625 362 357 362 469 452 497 564 621 558 621 582 361 609 591 237 237 544 237 869 585 597 609
609 372 523 364 581 557 812 540 557 541 362 327 362 659 281 278 558 631 723 548 266 551 591 915 449 540 540
460 670 449 455 659 420 430 497 622 599 276 267 313 449 540 884 926 949 507 676 676 676 676 676 676 990 727
598 598 598 598 264 264 264 264 719 753 761 761 761 761 761 659 761 741 741 741 741 665 631 609 564 564 564
564 564 564 925 558 582 582 582 582 237 237 237 237 580 585 597 597 597 597 597 659 597 581 581 581 581 557
609 557 676 651 575 676 598 625 740 761 264 652 676 889 753 540 761 722 635 600 631 642 665 750 642 778 761
264 665 641 544 585 266 585 641 592 534 540 544 523 585 540 266 631 585 622 580 540 597 631 571 538 631 472
585 732 599 747 811 500 1000 199 185 381 381 821 659 955 420 430 665 761 562
""",
    "medium": """
265 294 400 637 643 828 651 217 378 378 522 666 283 463 283 368 659 659 659 659 658 659 659 659 659 659 283
282 666 666 666 526 968 700 654 735 722 603 586 749 742 270 552 664 564 898 747 768 639 768 645 643 651 738
700 978 666 685 639 378 368 378 475 460 497 569 626 568 626 587 369 617 602 249 249 556 249 884 597 602 617
617 384 536 372 594 566 825 551 566 551 378 342 378 666 265 294 568 644 737 556 292 565 572 915 462 569 553
463 668 488 456 666 422 434 497 637 603 283 303 316 461 570 882 923 954 526 700 700 700 700 700 700 1004 735
603 603 603 603 270 270 270 270 722 747 768 768 768 768 768 666 768 738 738 738 738 685 644 627 569 569 569
569 569 569 921 568 587 587 587 587 249 249 249 249 586 597 602 602 602 602 602 666 602 594 594 594 594 566
610 566 700 654 577 700 603 639 742 768 270 664 700 898 747 578 768 736 639 600 645 651 685 783 666 795 767
270 685 644 553 597 284 586 644 598 538 578 553 533 597 578 284 644 593 637 598 551 602 669 578 550 644 501
586 769 605 766 853 500 1000 213 199 394 394 814 666 955 422 434 672 767 529
""",
    "semibold": """
248 309 396 643 649 844 663 213 393 393 543 673 291 466 290 379 670 670 670 670 669 670 670 670 670 670 290
289 673 673 673 544 999 724 657 744 724 608 586 755 744 275 561 677 566 906 741 775 643 776 651 649 660 734
724 1007 690 705 653 393 379 393 481 468 497 575 630 577 630 593 377 625 613 261 261 569 261 898 610 608 625
625 397 549 380 608 576 837 562 576 562 393 358 393 673 248 309 577 658 751 564 319 579 553 915 474 597 566
466 666 526 458 673 423 438 497 652 606 290 339 318 473 599 881 919 960 544 724 724 724 724 724 724 1017 744
608 608 608 608 275 275 275 275 724 741 775 775 775 775 775 673 775 734 734 734 734 705 657 646 575 575 575
575 575 575 917 577 593 593 593 593 261 261 261 261 593 610 608 608 608 608 608 673 608 608 608 608 608 576
612 576 724 657 579 724 608 653 744 775 275 677 724 906 741 616 775 751 643 600 658 660 705 816 690 811 773
275 705 648 562 610 303 587 648 604 543 616 562 543 610 617 303 657 600 652 616 563 608 707 585 563 657 531
587 806 610 785 894 500 1000 228 214 408 407 806 673 955 423 438 679 773 496
""",
}
_WIDTHS = {
    weight: dict(zip(_LETTERS, map(int, text.split()), strict=True)) for weight, text in _THOUSANDTHS.items()
}


def text_width_mm(text: str, size_pt: float, weight: str = "regular") -> float:
    """Return how wide one line of `text` is, in millimetres; an unknown letter counts as a usual one."""
    widths = _WIDTHS[weight]
    return sum(widths.get(c) or _other(c) for c in text) / 1000 * size_pt * MM_PER_POINT


def wrapped(text: str, width_mm: float, size_pt: float, weight: str = "regular") -> list[str]:
    """Return `text` in lines no wider than `width_mm`; a longer word is parted where it must be."""
    lines: list[str] = []
    line = ""
    for word in _pieces(text, width_mm, size_pt, weight):
        longer = f"{line} {word}" if line else word
        if line and text_width_mm(longer, size_pt, weight) > width_mm:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line] if line else lines


def shortened(text: str, width_mm: float, size_pt: float, weight: str = "regular") -> str:
    """Return `text`, or as much of its begin as fits with an ellipsis."""
    if text_width_mm(text, size_pt, weight) <= width_mm:
        return text
    room_mm = width_mm - text_width_mm("…", size_pt, weight)
    return text[: _fitting(text, room_mm, size_pt, weight)].rstrip() + "…"


def _pieces(text: str, width_mm: float, size_pt: float, weight: str) -> Iterator[str]:
    """Yield the words, and of a word that is too wide pieces that are not."""
    for word in text.split(" "):
        rest = word
        while text_width_mm(rest, size_pt, weight) > width_mm and len(rest) > 1:
            count = max(1, _fitting(rest, width_mm, size_pt, weight))
            yield rest[:count]
            rest = rest[count:]
        if rest:
            yield rest


def _fitting(text: str, width_mm: float, size_pt: float, weight: str) -> int:
    """Return how many letters of `text` fit, from its begin."""
    used_mm = 0.0
    for count, letter in enumerate(text):
        used_mm += text_width_mm(letter, size_pt, weight)
        if used_mm > width_mm:
            return count
    return len(text)


def _other(letter: str) -> int:
    if unicodedata.combining(letter):
        return 0
    return _WIDE if unicodedata.east_asian_width(letter) in "WF" else _UNKNOWN
