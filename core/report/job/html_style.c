/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The style of a job's sheet: system fonts, dark on white, no meaning in colour alone; screen
 * first, then paper. */
#include "core/report/job/html_style.h"
#include <stddef.h>

/* In pieces, because compilers may limit the length of a text. */
const char *const bite_job_html_style[] = {
    "@page{margin:9mm 11mm}\n",
    "*{box-sizing:border-box}\n",
    "html{background:#e9e9e6;-webkit-text-size-adjust:100%}\n",
    "body{margin:0;color:#111;font:14px/1.35 \"Helvetica Neue\",Helvetica,Arial,\"Liberation "
    "Sans\",\"Segoe UI\",Roboto,"
    "system-ui,sans-serif;font-variant-numeric:tabular-nums}\n",
    ".sheet{background:#fff;max-width:236mm;margin:6mm auto;padding:9mm 10mm;border:1px solid "
    "#bbb}\n",
    "h1,.again{font-size:1.5em;line-height:1.15;margin:0;font-weight:700;overflow-wrap:anywhere}\n",
    "h2{font-size:1.5em;line-height:1.15;margin:0;white-space:nowrap}\n",
    "h3{font-size:1em;margin:1em 0 .3em;padding-bottom:.1em;border-bottom:2px solid "
    "#111;break-after:avoid}\n",
    "p{margin:.4em 0}\n",
    ".head{display:flex;justify-content:space-between;gap:6mm;border-bottom:3px solid "
    "#111;padding-bottom:.3em}\n",
    ".facts{display:flex;flex-wrap:wrap;gap:.15em 1.6em;margin:.5em 0;padding:0}\n",
    ".facts div{display:flex;gap:.4em;overflow-wrap:anywhere}.facts dt{color:#444}.facts "
    "dd{margin:0;font-weight:600}\n",
    ".facts .fill{display:inline-block;min-width:28mm;border-bottom:1px solid #111}\n",
    ".judged{display:flex;gap:.7em;align-items:center;margin:.6em 0}\n",
    ".judged>.verdict-word{font-size:1.4em}\n",
    ".verdict-word{display:inline-block;padding:.05em .45em;border:2px solid "
    "#111;white-space:nowrap;letter-spacing:.03em}\n",
    ".clear{border-style:solid;border-width:1px}.tight{border-style:dashed}.open{border-style:"
    "dotted}\n",
    ".over{background:#111;color:#fff;-webkit-print-color-adjust:exact;print-color-adjust:exact}\n",
    ".danger{margin:.4em 0;padding:.35em .7em;border:2px solid "
    "#111;border-left-width:12px;overflow-wrap:anywhere}\n",
    "table{border-collapse:collapse;width:100%;overflow-wrap:break-word}\n",
    ".what,.fluids td,.remarks,.checks tbody th{overflow-wrap:anywhere}.fluids th,.fluids "
    "td:nth-child(2),.fluids "
    "td:nth-child(3){overflow-wrap:normal;white-space:nowrap}\n",
    "th,td{text-align:left;vertical-align:top;padding:.25em .45em;border-bottom:1px solid "
    "#999;font-weight:400}\n",
    "thead th{font-size:.8em;color:#333;vertical-align:bottom;border-bottom:1.5px solid "
    "#111;line-height:1.2;overflow-wrap:normal}\n",
    "tr{break-inside:avoid}\n",
    "tbody th{font-weight:600}\n",
    "td b{font-weight:600}\n",
    "small{display:block;font-size:.78em;color:#333;font-weight:400;line-height:1.25}\n",
    "td.tool small{white-space:nowrap}.remarks small,td small.more{display:inline}\n",
    ".q{white-space:nowrap}\n",
    ".passes .place{font-size:1.25em;font-weight:700;line-height:1.1}\n",
    ".passes td.enter{border-left:1.5px solid #111;border-right:1.5px solid "
    "#111;font-size:1.06em}\n",
    ".passes td.enter b{font-size:1.22em;font-weight:700}\n",
    ".passes th.enter{border-left:1.5px solid #111;border-right:1.5px solid #111}\n",
    ".passes .what{min-width:11em}.passes .verdict-word{font-size:.82em}\n",
    ".two{display:grid;grid-template-columns:minmax(0,11fr) minmax(0,9fr);gap:0 7mm}\n",
    ".box{display:inline-block;flex:none;width:1.05em;height:1.05em;border:1.5px solid "
    "#111;background:#fff}\n",
    "td.tick{width:3.4em}\n",
    ".ticks{list-style:none;margin:0;padding:0}.ticks li{display:flex;gap:.55em;margin:.25em "
    "0;break-inside:avoid}\n",
    ".ticks .box{margin-top:.13em}\n",
    ".small-table th,.small-table td{padding:.15em .45em}\n",
    ".readings{padding:.2em 0 .2em .45em}\n",
    ".reading{display:inline-block;width:4.1em;height:2em;border:1px solid #111;margin:0 0 -1px "
    "-1px;padding:0 "
    ".2em;font-size:.8em;"
    "color:#555}\n",
    ".reading:only-child{width:100%}\n",
    ".remarks{margin:0;padding:0;list-style:none}.remarks li{margin:.35em "
    "0;break-inside:avoid;overflow-wrap:anywhere}\n",
    ".about{color:#333}.source{color:#444}\n",
    ".small{font-size:.78em;color:#333}\n",
    ".bar{width:30%;min-width:5em}.bar "
    "svg{display:block;overflow:visible;width:100%;height:.85em;margin-top:.25em}\n",
    "td.share{white-space:nowrap}.bar-whole{fill:none;stroke:#111;stroke-width:.4}.bar-share{fill:#"
    "444}\n",
    ".foot{margin:1em 0 0;padding-top:.3em;border-top:1px solid "
    "#999;font-size:.75em;color:#444;overflow-wrap:anywhere}\n",
    ".patterns{position:absolute}\n",
    "svg.drawing{display:block;width:100%;height:auto;max-width:500px;overflow:visible}\n",
    ".drawing text{font-size:13px;fill:#111}.drawing .middle{text-anchor:middle}.drawing "
    ".end{text-anchor:end}\n",
    ".drawing rect{stroke:#111;stroke-width:1;fill:#fff}\n",
    ".drawing rect.part{fill:#e4e4e4;stroke-width:1.6}.drawing "
    "rect.off{fill:url(#p-off);stroke-dasharray:4 2}\n",
    ".drawing rect.tape{fill:#c2c2c2}.drawing rect.glue{fill:#333}.drawing "
    "rect.fixture{fill:url(#p-hatch)}\n",
    ".drawing rect.waste{fill:url(#p-waste)}.drawing rect.kerf{fill:#fff}.drawing "
    "rect.hollow{fill:#fff}\n",
    ".drawing rect.to-come{fill:none;stroke-dasharray:3 3}.drawing "
    "rect.sheet-box{fill:url(#p-waste);stroke-width:1.6}\n",
    ".drawing line{stroke:#111;stroke-width:1}.drawing line.lead{stroke-width:.7}.drawing "
    "line.mark-line{stroke-width:1.6;"
    "stroke-dasharray:6 3}\n",
    ".picture svg{display:block;width:100%;height:auto}\n",
    "@media screen{.wide{overflow-x:auto}.passes{font-size:13px}.passes th,.passes "
    "td{padding:.25em .3em}}\n",
    "@media screen and (max-width:960px){.sheet{margin:3mm;padding:6mm "
    "5mm}.passes{font-size:12.5px}.passes "
    ".what{min-width:7em}}\n",
    "@media screen and (max-width:700px){.two{display:block}.sheet{margin:0;padding:4mm;border:0}"
    ".head{flex-wrap:wrap}h2{white-space:normal}}\n",
    "@media print{html{background:#fff}body{font-size:9.3pt;line-height:1.22}th,td{padding:.18em "
    ".4em}.facts{gap:.1em "
    "1.2em;margin:.3em 0}.judged{margin:.3em 0}\n",
    ".sheet{max-width:none;margin:0;padding:0;border:0;break-after:page}.sheet:last-child{break-"
    "after:auto}\n",
    ".wide{overflow:visible}h3{margin:.6em 0 .2em}p{margin:.2em "
    "0}.foot{margin-top:.4em}.small{margin:0}.remarks li{margin:.14em "
    "0}.ticks li{margin:.18em 0}\n",
    "svg.drawing,.small-table,.danger,.judged,.picture{break-inside:avoid}.picture{width:73%}}\n",
    NULL,
};
