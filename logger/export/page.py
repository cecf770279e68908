"""The frame of every HTML report: its style, and a policy for browsers to run and fetch nothing."""

from __future__ import annotations

from logger.export.svg import FONTS, escaped
from logger.version import PROGRAM, VERSION

__all__ = ["page"]

_STYLE = f"""
:root {{ color-scheme: light; }}
* {{ box-sizing: border-box; }}
body {{ margin: 0; background: #fbfaf7; color: #1d2327; font: 15px/1.45 {FONTS};
  font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }}
main {{ max-width: 60rem; margin: 0 auto; padding: 2.2rem 2rem 3rem; }}
h1 {{ font-size: 1.7rem; line-height: 1.2; margin: 0 0 .4rem; font-weight: 600; }}
h2 {{ font-size: 1rem; margin: 1.5rem 0 .35rem; padding-bottom: .3rem; border-bottom: 1px solid #dddad2;
  font-weight: 600; }}
p {{ margin: 0 0 .3rem; }}
header {{ display: flex; gap: 2rem; justify-content: space-between; align-items: flex-start; }}
header > :first-child {{ flex: 1; min-width: 0; }}
.quiet, caption, figcaption {{ color: #5e666b; font-size: .87em; }}
.origin {{ color: #8a3d7a; font-weight: 600; }}
.headline {{ text-align: right; max-width: 19rem; }}
.headline > :first-child {{ font-size: 2.3rem; line-height: 1.1; font-weight: 600; white-space: nowrap; }}
.sure > :first-child {{ color: #0b7a55; }}
.unknown > :first-child {{ color: #5e666b; font-size: 1.3rem; }}
.blanks {{ display: flex; gap: 1.2rem; margin: 1.6rem 0 1.2rem; color: #5e666b; font-size: .87em; }}
.blanks span {{ flex: 1; border-bottom: 1px solid #5e666b; }}
.blanks span:first-child {{ flex: 2; }}
figure {{ margin: 0; }}
figure svg {{ display: block; width: 100%; height: auto; }}
figcaption {{ margin-top: .5rem; }}
.moments {{ columns: 2; column-gap: 2rem; margin: .3rem 0 0; padding-left: 1.7rem; color: #1d2327; }}
.moments li {{ break-inside: avoid; }}
.moments ::marker {{ color: #8a3d7a; font-weight: 600; }}
.columns {{ display: grid; grid-template-columns: 1fr 1fr; gap: 0 2rem; }}
.columns > * {{ min-width: 0; }}
table {{ width: 100%; border-collapse: collapse; }}
caption {{ text-align: left; padding-bottom: .3rem; }}
th, td {{ text-align: left; vertical-align: top; padding: .16rem .5rem .16rem 0; font-weight: 400; }}
th[scope=row] {{ color: #5e666b; width: 36%; }}
td {{ font-weight: 500; }}
td .quiet {{ font-weight: 400; }}
.wide td, .wide th, .wide th[scope=row] {{ font-size: .93em; width: auto; }}
.wide td, .wide th[scope=col] {{ overflow-wrap: normal; }}
.wide td {{ white-space: nowrap; }}
.wide td:last-child {{ white-space: normal; }}
thead th {{ color: #5e666b; border-bottom: 1px solid #dddad2; }}
.amount {{ text-align: right; white-space: nowrap; padding-right: 0; }}
.budget th {{ width: 50%; }}
.budget td:nth-child(2) {{ width: 30%; }}
.bar {{ display: inline-block; height: .62em; min-width: 1px; background: #5a9b82;
  border-radius: 1px; print-color-adjust: exact; -webkit-print-color-adjust: exact; }}
ul {{ margin: .2rem 0; padding-left: 1.2rem; }}
li {{ margin: .12rem 0; }}
.conclusions h2 {{ border: 0; margin-bottom: 0; }}
.line {{ height: 2.1rem; border-bottom: 1px dotted #5e666b; }}
.pictures > div {{ display: grid; grid-template-columns: 1fr 1fr; gap: 1.2rem 2rem; margin-top: .8rem; }}
.pictures figure {{ min-width: 0; break-inside: avoid; }}
.pictures img {{ display: block; max-width: 100%; max-height: 20rem; }}
.pictures strong {{ color: #8a3d7a; }}
footer {{ margin-top: 1.8rem; padding-top: .7rem; border-top: 1px solid #dddad2; font-size: .87em; }}
@media (max-width: 44rem) {{
  main {{ padding: 1.2rem 1rem 2rem; }}
  header {{ display: block; }}
  .headline {{ text-align: left; margin-top: 1rem; }}
  .columns, .blanks, .pictures > div {{ display: block; }}
  .blanks span {{ display: block; margin-bottom: .8rem; }}
  .moments {{ columns: 1; }}
}}
@page {{ size: A4; margin: 12mm 15mm; }}
@media print {{
  :root {{ font-size: 9.5px; }}
  body {{ background: #fff; font-size: 9.4px; line-height: 1.3; }}
  main {{ max-width: none; padding: 0; }}
  h1 {{ font-size: 20px; }}
  h2 {{ margin-top: 8px; font-size: 11px; }}
  .headline > :first-child {{ font-size: 27px; }}
  th, td {{ padding: 1px 4px 1px 0; }}
  figure svg {{ max-height: 70mm; }}
  .line {{ height: 7mm; }}
  .line:nth-of-type(n + 5) {{ display: none; }}
  section, figure, tr {{ break-inside: avoid; }}
  .pictures {{ break-before: page; break-inside: auto; }}
  .pictures img {{ max-height: 64mm; }}
}}
"""


def page(title: str, body: str, *, has_pictures: bool = False) -> str:
    """Return a complete HTML document; `body` is markup whose texts are escaped already.

    The policy in its head forbids scripts, frames and everything from the network, whatever a label says;
    pictures, where it `has_pictures`, may only be those that lie in the document itself.
    """
    images = "; img-src data:" if has_pictures else ""
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'{images}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="{escaped(f"{PROGRAM} {VERSION}")}">
<title>{escaped(title)}</title>
<style>{_STYLE}</style>
</head>
<body>
<main>{body}</main>
</body>
</html>
"""
