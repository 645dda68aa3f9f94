/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The style of an inspection report: system fonts, dark on white, no meaning in colour alone; page
 * numbers are in the margin of the paper. */
#include "core/report/inspection/html_style.h"
#include <stddef.h>

const char *const bite_inspection_style[] = {
    "@page{margin:13mm 13mm 16mm;@bottom-right{content:\"Page \" counter(page) \" of \" "
    "counter(pages);font:8pt Arial,\"Liberation Sans\",sans-serif;color:#333}}\n",
    "*{box-sizing:border-box}html{background:#e9e9e6;-webkit-text-size-adjust:100%}\n",
    "body{margin:0;color:#111;font:15px/1.38 \"Helvetica Neue\",Helvetica,Arial,\"Liberation "
    "Sans\",\"Segoe UI\",Roboto,system-ui,sans-serif;font-variant-numeric:tabular-nums}\n",
    ".sheet{background:#fff;max-width:236mm;margin:6mm auto;padding:9mm 10mm;border:1px solid "
    "#bbb}\n",
    "h1,h2{font-size:1.45em;line-height:1.15;margin:0;flex:none}\n",
    "h3{font-size:1.05em;margin:1.1em 0 .3em;padding-bottom:.1em;border-bottom:2px solid "
    "#111;break-after:avoid;overflow-wrap:anywhere}\n",
    "p{margin:.4em 0;overflow-wrap:anywhere}\n",
    ".head{display:flex;justify-content:space-between;align-items:baseline;gap:6mm;border-bottom:"
    "3px solid #111;padding-bottom:.3em}\n",
    ".head p{margin:0;min-width:0;text-align:right}\n",
    ".verdict{display:flex;gap:1.2em;align-items:center;margin:.9em 0;padding:.7em .9em;border:"
    "2px solid #111;break-inside:avoid}\n",
    ".verdict>strong{font-size:1.7em;line-height:1.1;flex:none;max-width:9em}\n",
    ".verdict p{margin:.15em 0}\n",
    ".fields{display:grid;grid-template-columns:repeat(3,minmax(0,1fr));margin:.8em "
    "0;border:solid #111;border-width:1px 0 0 1px}\n",
    ".fields div{border:solid #111;border-width:0 1px 1px 0;padding:.15em .45em .25em;min-height:"
    "2.9em}\n",
    ".fields dt{font-size:.75em;color:#333}\n",
    ".fields dd{margin:0;font-weight:600;overflow-wrap:anywhere}\n",
    "table{border-collapse:collapse;width:100%}\n",
    "th,td{text-align:left;vertical-align:top;padding:.25em .45em;border-bottom:1px solid "
    "#999;font-weight:400;overflow-wrap:anywhere;min-width:3.2em}\n",
    "thead{display:table-header-group}thead th{font-size:.8em;color:#333;vertical-align:bottom;"
    "border-bottom:1.5px solid #111;line-height:1.2;overflow-wrap:normal}\n",
    "tr{break-inside:avoid}tbody th{font-weight:600}td+th{min-width:9em}\n",
    ".parts{columns:2;column-gap:8mm}@media screen and (max-width:700px){.parts{columns:1}}\n",
    ".n{text-align:right;white-space:nowrap}thead .n{white-space:normal}\n",
    ".tight{width:1%;white-space:nowrap;overflow-wrap:normal}\n",
    ".finding{display:inline-block;padding:0 .4em;border:1px solid "
    "#111;white-space:nowrap;font-weight:600}\n",
    ".good{border-style:solid}.part{border-style:double;border-width:3px}.between{border-style:"
    "dashed}.open{border-style:dotted}\n",
    ".bad{background:#111;color:#fff;-webkit-print-color-adjust:exact;print-color-adjust:exact}\n",
    ".sign{display:grid;grid-template-columns:2fr 3fr 3fr 2fr;gap:1.3em "
    "1em;margin-top:1.6em;break-inside:avoid}\n",
    ".sign span{border-bottom:1px solid #111;min-height:1.9em}.sign b{font-weight:600;align-self:"
    "end}\n",
    ".sign small{display:block;font-size:.75em;color:#333}\n",
    ".small{font-size:.85em;color:#222}\n",
    ".note{border:1.5px solid #111;border-left-width:10px;padding:.2em .8em;margin:.7em 0}\n",
    "figure{margin:1em 0;break-inside:avoid}figcaption{font-size:.9em;margin-top:.2em}\n",
    "svg.plot{display:block;width:100%;height:auto;max-width:720px}\n",
    ".plot text{font-size:12px;fill:#111}.plot .end{text-anchor:end}.plot .middle{text-anchor:"
    "middle}\n",
    ".plot rect.guard{fill:url(#guard)}.plot rect.frame{fill:none;stroke:#111}\n",
    ".plot line.limit{stroke:#111;stroke-width:2}.plot line.nominal{stroke:#555;stroke-dasharray:"
    "7 4}\n",
    ".plot line.mean{stroke:#111;stroke-dasharray:2 3}.plot line.bar{stroke:#777}\n",
    ".plot .mark{stroke:#111;stroke-width:1.3;fill:#fff}.plot .mark.solid{fill:#111}\n",
    "ul{margin:.3em 0;padding-left:1.2em}li{margin:.2em 0;overflow-wrap:anywhere}\n",
    "code{font:.85em ui-monospace,Menlo,Consolas,\"Liberation "
    "Mono\",monospace;overflow-wrap:anywhere}\n",
    ".foot{margin:1em 0 0;padding-top:.3em;border-top:1px solid "
    "#999;font-size:.75em;color:#444}\n",
    ".hidden{position:absolute}\n",
    "@media screen{.wide{overflow-x:auto}}\n",
    "@media screen and (max-width:700px){.sheet{margin:0;padding:4mm;border:0}.head,.verdict{flex-"
    "wrap:wrap}.fields{grid-template-columns:repeat(2,minmax(0,1fr))}.wide "
    "table{font-size:.85em}h1,h2{flex:initial}}\n",
    "@media print{html{background:#fff}body{font-size:9.5pt;line-height:1.28}.sheet{max-width:none;"
    "margin:0;padding:0;border:0;break-after:page}.sheet:last-child{break-after:auto}.wide{"
    "overflow:visible}th,td{padding:.18em .4em}}\n",
    NULL,
};
