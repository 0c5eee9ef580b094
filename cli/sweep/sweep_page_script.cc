// SPDX-License-Identifier: GPL-3.0-or-later
// Sorts and filters the table of a sweep's page, and shows the design that was asked for.
#include "cli/sweep/sweep_page.h"

namespace felloe {

std::string sweep_page_style() {
  return R"css(
.tools { display: flex; flex-wrap: wrap; gap: 0.5rem 1rem; align-items: end; margin: 0.8rem 0; }
.tools label { display: grid; font-size: 0.85rem; color: var(--soft); }
.tools input, .tools select { font: inherit; padding: 0.25rem 0.4rem; color: var(--ink);
  background: #fff; border: 1px solid var(--soft); }
.tools [hidden] { display: none; }
th button { all: unset; cursor: pointer; text-decoration: underline dotted; }
th button:focus-visible { outline: 3px solid var(--link); }
th[aria-sort="ascending"] button::after { content: " \25B2"; }
th[aria-sort="descending"] button::after { content: " \25BC"; }
tr.chosen > * { background: #fdf3d7; }
#chosen { border: 1.5px solid var(--strong-rule); padding: 0.2rem 1rem 0.8rem; margin: 1.2rem 0;
  scroll-margin-top: 0.5rem; }
#chosen h2 { border: 0; margin-top: 0.6rem; }
td:last-child:not(.number) { min-width: 11rem; }
/* A button in a heading would be missing where the heading is repeated on the next page. */
@media print { .tools { break-after: avoid; } .tools label { display: none; }
  th button { display: contents; } td:last-child:not(.number) { min-width: 36mm; } }
#chosen img { border: 1px solid var(--rule); max-height: 32rem; width: auto; }
)css";
}

std::string sweep_page_script() {
  // marked as character data, so that the page is well-formed XML too
  return R"js(/*<![CDATA[*/
"use strict";
(() => {
  const data = JSON.parse(document.getElementById("sweep-data").textContent);
  const byId = new Map(data.designs.map(d => [String(d.id), d]));
  const table = document.getElementById("designs");
  const body = table.tBodies[0], rows = Array.from(body.rows);
  const heads = Array.from(table.tHead.rows[0].cells);

  // sorting: numbers by size, no crack behind all lives, what is empty at the end
  const keyOf = text => {
    const t = text.trim();
    if (t === "") return null;
    if (t === "no crack") return Infinity;
    const x = Number(t);
    return Number.isNaN(x) ? t : x;
  };
  const compare = (a, b) => {
    if (a === null || b === null) return 0;
    if (typeof a === "number" && typeof b === "number") return a === b ? 0 : a < b ? -1 : 1;
    return String(a).localeCompare(String(b), "en", {numeric: true});
  };
  heads.forEach((head, column) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => {
      const down = head.getAttribute("aria-sort") === "ascending";
      heads.forEach(h => h.removeAttribute("aria-sort"));
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      const keyed = rows.map((row, i) => [keyOf(row.cells[column].textContent), i, row]);
      keyed.sort((a, b) => {
        if ((a[0] === null) !== (b[0] === null)) return a[0] === null ? 1 : -1;
        return (down ? -1 : 1) * compare(a[0], b[0]) || a[1] - b[1];
      });
      body.append(...keyed.map(k => k[2]));
    });
  });

  // filters
  const tools = document.getElementById("tools"), words = document.getElementById("filter");
  const verdict = document.getElementById("filter-verdict"), count = document.getElementById("shown");
  const filter = () => {
    const wanted = words.value.toLowerCase().split(/\s+/).filter(w => w !== "");
    let n = 0;
    for (const row of rows) {
      const text = row.textContent.toLowerCase();
      const fits = (verdict.value === "" || row.classList.contains(verdict.value)) &&
        wanted.every(w => text.includes(w));
      row.hidden = !fits;
      n += fits ? 1 : 0;
    }
    count.textContent = n + " of " + rows.length + " designs";
  };
  words.addEventListener("input", filter);
  verdict.addEventListener("change", filter);
  tools.hidden = false;
  filter();

  // one design
  const panel = document.getElementById("chosen");
  const add = (parent, name, text) => {
    const e = document.createElement(name);
    if (text !== undefined) e.textContent = text;
    parent.append(e);
    return e;
  };
  const figure = x => x === null || x === undefined ? "" :
    Math.abs(x) >= 1e5 ? x.toExponential(2) : String(Number(x.toPrecision(4)));
  const show = d => {
    panel.replaceChildren();
    add(panel, "h2", "Design " + d.id).tabIndex = -1;
    const facts = add(panel, "dl");
    facts.className = "facts";
    const fact = (name, value) => {
      const pair = add(facts, "div");
      add(pair, "dt", name);
      add(pair, "dd", value);
    };
    data.keys.forEach((key, i) => fact(key, (d.values || [])[i] || ""));
    fact("hash of its case", d.hash);
    if (d.version) fact("computed by felloe", d.version);
    if (d.reason) add(panel, "p", "Failed: " + d.reason);
    if (d.tests) {
      const box = add(panel, "div");
      box.className = "table-box";
      const t = add(box, "table");
      add(t, "caption", "Worst hot spot of every rig test");
      const head = add(add(t, "thead"), "tr");
      for (const h of ["rig test", "place", "stress [MPa]", "allowed [MPa]", "rated life [cycles]",
                       "required [cycles]", "verdict"]) add(head, "th", h).scope = "col";
      const rowsOf = add(t, "tbody");
      for (const x of d.tests) {
        const r = add(rowsOf, "tr");
        add(r, "th", x.test).scope = "row";
        for (const v of [x.feature, figure(x.stress), figure(x.allowed),
                         x.noCrack ? "no crack" : figure(x.life), figure(x.required), x.verdict])
          add(r, "td", v);
      }
    }
    if (d.drawing) {
      const f = add(panel, "figure"), picture = add(f, "img");
      picture.alt = "Half section of design " + d.id + " with its dimensions";
      picture.src = "data:image/svg+xml;base64," + d.drawing;
    } else {
      add(panel, "p", "The drawing of its section is not on this page, which holds those of the " +
        "best designs; 'felloe check' draws it.").className = "note";
    }
    add(panel, "h3", "The same wheel again, whole");
    add(add(panel, "pre"), "code", d.command);
    panel.hidden = false;
    rows.forEach(r => r.classList.remove("chosen"));
    const link = document.getElementById("design-" + d.id);
    if (link) link.closest("tr").classList.add("chosen");
    panel.scrollIntoView({block: "start"});
    panel.firstChild.focus({preventScroll: true});
  };
  const follow = () => {
    const found = /^#design-(\d+)$/.exec(location.hash), d = found && byId.get(found[1]);
    if (d) show(d);
  };
  window.addEventListener("hashchange", follow);
  // the design that is shown already is asked for again: no new address, no event
  document.addEventListener("click", event => {
    const a = event.target.closest && event.target.closest("a");
    if (a && a.getAttribute("href") === location.hash) follow();
  });
  follow();
})();
/*]]>*/
)js";
}

}  // namespace felloe
