/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The script and the style of the page of a window.
 *
 * The script only shows what is in the page's grid; it computes nothing but the nearest place. It
 * contains no markup characters, so that the page is well-formed as XML too. The page's policy
 * names the hashes of both texts (the base64 of their SHA-256, as in Content Security Policy
 * Level 3): whoever changes a text changes its hash, and tests/browser/test_window_page.sh says
 * which one is right.
 */
#include "core/report/window/html_parts.h"
#include <stddef.h>

const char bite_window_page_script_hash[] = "sha256-jOViKbPDyxInusG4Twr0FDPL5TENSW5+vncUOo53mTU=";
const char bite_window_page_style_hash[] =
    "sha256-/x+Ba9k6y9GwbSyzgyAIeDsztQ+cmJ81EC6ADh+jEt0="; /* with bite_svg_style behind it */

/* In pieces, because compilers may limit the length of a text. */
const char *const bite_window_page_style[] = {
    "*{box-sizing:border-box}\n",
    "html{color-scheme:light dark;-webkit-text-size-adjust:100%}\n",
    "body{margin:0 auto;padding:12px 16px;max-width:1180px;background:#fff;color:#111;font:"
    "17px/1.35 Helvetica,Arial,\"Liberation Sans\",sans-serif;font-variant-numeric:tabular-"
    "nums}\n",
    "h1{font-size:1.25em;margin:.2em 0;overflow-wrap:anywhere}\n",
    "h2{font-size:1.05em;margin:.9em 0 .3em}\n",
    "p{margin:.4em 0}\n",
    ".board{display:grid;grid-template-columns:minmax(0,8fr) minmax(17em,5fr);gap:0 24px;al"
    "ign-items:start}\n",
    ".picture{position:relative;margin:0}\n",
    ".picture svg{display:block;width:100%;height:auto;background:#fff}\n",
    "#field{position:absolute;left:11.6667%;top:9.0535%;width:86.6667%;height:82.3045%;curs"
    "or:crosshair;touch-action:none;display:none}\n",
    ".running #field{display:block}\n",
    "#field:focus{outline:none}\n",
    "#field:focus-visible{outline:4px solid #0b57d0;outline-offset:2px}\n",
    ".cross{stroke:#000;stroke-width:1.6;display:none}\n",
    ".running .cross{display:inline}\n",
    ".place{font-size:1.55em;font-weight:700;margin:0;line-height:1.2}\n",
    ".place span{display:block}\n",
    ".word{display:inline-block;font-size:1.45em;font-weight:700;margin:.25em 0;padding:.05"
    "em .5em;border:2px solid currentColor;letter-spacing:.03em}\n",
    ".word.tight{border-style:dashed}\n",
    ".word.not-judged{border-style:dotted}\n",
    ".word.over{background:#111;color:#fff;border-color:#111;-webkit-print-color-adjust:exa"
    "ct;print-color-adjust:exact}\n",
    ".keys{display:none;gap:8px;margin:.6em 0;flex-wrap:wrap}\n",
    ".running .keys{display:flex}\n",
    "button{min-width:56px;min-height:56px;font:inherit;font-size:1.2em;color:inherit;backg"
    "round:transparent;border:2px solid currentColor;border-radius:6px;touch-action:manipul"
    "ation;padding:0 .6em}\n",
    "button:focus-visible{outline:4px solid #0b57d0;outline-offset:2px}\n",
    "table{border-collapse:collapse;width:100%}\n",
    "caption{text-align:left;font-weight:700;padding:.3em 0}\n",
    "th,td{text-align:left;vertical-align:top;padding:.2em .5em .2em 0;border-bottom:1px so"
    "lid #999;font-weight:400}\n",
    "thead th{font-size:.85em}\n",
    "tr.binds th,tr.binds td{font-weight:700;border-bottom:3px solid currentColor}\n",
    "em{font-style:italic}\n",
    ".places td,.places th{padding:.25em .3em;font-size:.82em}\n",
    ".wide{overflow-x:auto}\n",
    ".note{font-size:.85em}\n",
    ".fixed{border:2px solid currentColor;border-left-width:10px;padding:.3em .7em}\n",
    ".unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}\n",
    "summary{min-height:48px;padding:.6em 0;font-weight:700;cursor:pointer}\n",
    "summary:focus-visible{outline:4px solid #0b57d0}\n",
    "@media (max-width:820px){body{padding:8px}.board{display:block}}\n",
    "@media (prefers-color-scheme:dark){body{background:#111;color:#eee}.word.over{backgrou"
    "nd:#eee;color:#111;border-color:#eee}#field:focus-visible,button:focus-visible,summary"
    ":focus-visible{outline-color:#8ab4f8}.picture svg{filter:invert(1) hue-rotate(180deg)}"
    "}\n",
    "@media print{body{max-width:none;padding:0;background:#fff;color:#000;font-size:9.5pt;"
    "line-height:1.2}th,td{padding:.08em .4em .08em 0}h1{margin:0}.keys,.running .keys,#fie"
    "ld,.running #field,.cross,.running .cross{display:none}.board{display:grid;grid-templa"
    "te-columns:minmax(0,8fr) minmax(0,5fr)}.picture svg{filter:none}.word.over{background:"
    "#111;color:#fff;border-color:#111}table,.picture,.fixed{break-inside:avoid}.wide{overf"
    "low:visible}@page{margin:10mm}}\n",
    NULL,
};

const char *const bite_window_page_script[] = {
    "(function(){\n",
    "\"use strict\";\n",
    "var grid=JSON.parse(document.getElementById(\"grid\").textContent);\n",
    "var words={c:\"clear\",t:\"tight\",o:\"over\",n:\"not judged\"};\n",
    "var by=function(id){return document.getElementById(id);};\n",
    "var field=by(\"field\"),live=by(\"live\"),rows=[],place=[0,0],timer=0;\n",
    "var last=[grid.across.length-1,grid.up.length-1];\n",
    "grid.limits.forEach(function(limit,i){rows.push(by(\"limit-\"+i));});\n",
    "function kept(value,top){return Math.max(0,Math.min(top,Math.round(value)));}\n",
    "function percent(value){return value===null?\"-\":value===0?\"under 1 %\":value+\" %\""
    ";}\n",
    "function move(x,y){\n",
    " place=[kept(x,last[0]),kept(y,last[1])];\n",
    " x=place[0];y=place[1];\n",
    " var verdict=words[grid.verdict[y].charAt(x)],moving=words[grid.moving[y].charAt(x)];\n",
    " var binds=grid.binds[y][x],tail=\"\";\n",
    " by(\"across\").textContent=grid.across[x];\n",
    " by(\"up\").textContent=grid.up[y];\n",
    " by(\"verdict\").textContent=verdict.toUpperCase();\n",
    " by(\"verdict\").className=\"word \"+verdict.replace(\" \",\"-\");\n",
    " rows.forEach(function(row,i){\n",
    "  var limit=grid.limits[i],use=limit.fixed?limit.use:limit.use[y][x];\n",
    "  var chance=limit.fixed?limit.chance:limit.chance[y][x];\n",
    "  row.className=i===binds?\"binds\":\"\";\n",
    "  row.cells[1].textContent=use===null?\"-\":use+\" %\";\n",
    "  row.cells[2].textContent=percent(chance);\n",
    "  row.cells[3].textContent=i===binds?(moving===\"clear\"?\"closest\":\"binds\"):\n",
    "   limit.fixed?\"everywhere\":\"\";\n",
    "  if(i===binds){tail=limit.name+(moving===\"clear\"?\" is closest\":\" binds\")+\", \""
    "+use+\" % used\"+\n",
    "   (chance===null?\"\":\", chance \"+percent(chance));}\n",
    " });\n",
    " var left=grid.plot[0]+grid.plot[2]*x/last[0],top=grid.plot[1]+grid.plot[3]*(1-y/last["
    "1]);\n",
    " by(\"cross-across\").setAttribute(\"x1\",left);by(\"cross-across\").setAttribute(\"x2"
    "\",left);\n",
    " by(\"cross-up\").setAttribute(\"y1\",top);by(\"cross-up\").setAttribute(\"y2\",top);\n",
    " var said=grid.across[x]+\", \"+grid.up[y]+\": \"+verdict+\n",
    "  (verdict===moving?\"\":\" at every place, by \"+grid.everywhere+\"; by the other lim"
    "its \"+moving)+\n",
    "  (tail===\"\"?\"\":\"; \"+tail)+\".\";\n",
    " by(\"said\").textContent=said;\n",
    " clearTimeout(timer);\n",
    " timer=setTimeout(function(){live.textContent=said;},250);\n",
    "}\n",
    "function point(event){\n",
    " var box=field.getBoundingClientRect();\n",
    " move((event.clientX-box.left)/box.width*last[0],(box.bottom-event.clientY)/box.height"
    "*last[1]);\n",
    "}\n",
    "field.addEventListener(\"pointerdown\",function(event){\n",
    " if(field.setPointerCapture){try{field.setPointerCapture(event.pointerId);}catch(ignor"
    "ed){}}\n",
    " field.focus();point(event);\n",
    "});\n",
    "field.addEventListener(\"pointermove\",point);\n",
    "var steps={ArrowLeft:[-1,0],ArrowRight:[1,0],ArrowUp:[0,1],ArrowDown:[0,-1],PageUp:[0,"
    "8],PageDown:[0,-8]};\n",
    "field.addEventListener(\"keydown\",function(event){\n",
    " var step=steps[event.key],far=event.shiftKey?8:1;\n",
    " if(event.key===\"Home\"){move(grid.here[0],grid.here[1]);}\n",
    " else if(step){move(place[0]+far*step[0],place[1]+far*step[1]);}\n",
    " else{return;}\n",
    " event.preventDefault();\n",
    "});\n",
    "document.querySelectorAll(\"button\").forEach(function(button){\n",
    " button.addEventListener(\"click\",function(){\n",
    "  var step=steps[button.getAttribute(\"data-key\")];\n",
    "  if(step){move(place[0]+step[0],place[1]+step[1]);}else{move(grid.here[0],grid.here[1"
    "]);}\n",
    " });\n",
    "});\n",
    "document.documentElement.className=\"running\";\n",
    "move(grid.here[0],grid.here[1]);\n",
    "})();\n",
    NULL,
};
