// Sorts and filters the rows of a table, and adds up those that are shown. What a reader picks out must
// never be taken for the whole, so:
//
//   - The page's own table is not touched: it is printed, and saved with the page, as it was written. A
//     second one stands in a shadow root, which no browser saves; on screens a style sheet of this script
//     shows it in place of the first.
//   - Every figure is read from the page's own table, as whole minor units. Before anything is shown, the
//     rows must add up to the totals that the page has.
//
// Texts are put into the page as text nodes and copies of nodes only.
(function () {
  'use strict';

  const MOST = 500; // rows that are listed until all are asked for
  const PLACES = 12; // decimals by which numbers are compared

  const STYLE = `
    :host { display: block; }
    @media print { :host { display: none; } }
    .sift { display: flex; flex-wrap: wrap; gap: .6rem 1rem; align-items: end; margin: 0 0 .6rem; padding: .7rem .9rem; background: var(--tint); border: 1px solid var(--rule); }
    label { display: grid; grid-template-columns: minmax(0, auto); gap: .15rem; min-width: 0; max-width: 100%; font-size: .875rem; color: var(--muted); overflow-wrap: anywhere; }
    input, select, button { font: inherit; font-size: 1rem; color: var(--ink); background: var(--paper); border: 1px solid var(--muted); padding: 0 .5rem; height: 2.2rem; }
    input { width: 16rem; max-width: 100%; }
    select { max-width: min(16rem, 100%); overflow: hidden; text-overflow: ellipsis; }
    button { cursor: pointer; }
    .told { margin: 0 0 .6rem; max-width: none; font-weight: 600; font-variant-numeric: tabular-nums; }
    .tablewrap { margin-bottom: .5rem; }
    thead button { all: unset; box-sizing: border-box; cursor: pointer; display: inline; font: inherit; color: inherit; text-decoration: underline dotted; text-underline-offset: .2em; }
    thead button:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
    thead button::after { content: '\\00a0\\2195' / ''; color: var(--muted); font-weight: 400; }
    [aria-sort=ascending] button::after { content: '\\00a0\\2191' / ''; color: inherit; }
    [aria-sort=descending] button::after { content: '\\00a0\\2193' / ''; color: inherit; }
    .more { margin: 0 0 1rem; color: var(--muted); }
    @media screen and (min-width: 48rem) and (min-height: 34rem) {
      .tablewrap { max-height: 85vh; overflow: auto; scroll-padding: 5rem 0 3rem 14rem; }
      thead th { position: sticky; top: 0; z-index: 1; background: var(--paper); box-shadow: 0 2px var(--ink); }
      tfoot tr.total > * { position: sticky; bottom: 0; z-index: 1; background: var(--paper); border: 0; box-shadow: 0 -2px var(--ink); }
      tbody th, tfoot th { position: sticky; left: 0; background: var(--paper); }
      thead th:first-child, tfoot th { left: 0; z-index: 2; }
    }`;

  function make(tag, attributes = {}, ...content) {
    const el = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) el.setAttribute(name, value);
    el.append(...content);
    return el;
  }

  // textOf is what a cell says, without the mark of its note.
  const textOf = (cell) => [...cell.childNodes].filter((n) => n.nodeName !== 'SUP').map((n) => n.textContent).join('');

  // exact reads a number as a whole one, in units of so many decimals; null where the cell has none.
  function exact(text, places) {
    const [whole, part = ''] = text.replace(/[^0-9.]/g, '').split('.');
    if (whole === '') return null;
    const size = BigInt(whole + part.padEnd(places, '0').slice(0, places));
    return /^\s*[-\u2212]/.test(text) ? -size : size;
  }

  function sift(id, spec) {
    const host = document.querySelector('[data-sift-host="' + id + '"]');
    const own = document.getElementById(id);
    if (!host || !own) return;
    const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });
    const heads = [...own.tHead.rows[0].cells].map((c) => c.textContent);
    const lines = [...own.tBodies[0].rows];
    const total = lines.pop();
    const texts = lines.map((line) => [...line.cells].map(textOf));
    const undefinedAt = (row, column) => lines[row].cells[column].classList.contains('undefined');
    const plural = (n) => n.toLocaleString('en') + ' ' + spec.noun + (n === 1 ? '' : 's');

    // ---- sums ----------------------------------------------------------------------------------

    const numbers = new Map(); // of the columns that are added up, by row
    spec.columns.forEach((column, c) => {
      if (column.sum) numbers.set(c, texts.map((row, r) => (undefinedAt(r, c) ? 0n : exact(row[c], column.digits) || 0n)));
    });

    const sumOf = (c, rows) => rows.reduce((sum, r) => sum + numbers.get(c)[r], 0n);

    // digitsOf writes a size in minor units with its decimals, in groups of three.
    function digitsOf(minor, column) {
      const text = String(minor < 0n ? -minor : minor).padStart(column.digits + 1, '0');
      const cut = text.length - column.digits;
      const part = column.all ? text.slice(cut) : text.slice(cut).replace(/0+$/, '');
      return text.slice(0, cut).replace(/\B(?=(\d{3})+$)/g, ',') + (part && '.' + part);
    }

    const plain = (minor, column) => (minor < 0n ? spec.money.minus : '') + digitsOf(minor, column);
    const amount = (minor, column) => (minor < 0n ? spec.money.negative : spec.money.positive).join(digitsOf(minor, column));

    // proved tells whether the rows add up to the totals of the page.
    function proved() {
      const all = lines.map((_, r) => r);
      return [...numbers.keys()].every((c) => plain(sumOf(c, all), spec.columns[c]) === textOf(total.cells[c]));
    }

    // ---- choosing and sorting ------------------------------------------------------------------

    const words = texts.map((row) => spec.search.map((c) => row[c]).join('\n').toLowerCase());
    const field = make('input', { type: 'search', autocomplete: 'off', spellcheck: 'false' });
    const selects = spec.choose.map(choices).filter(Boolean);
    const state = { column: -1, down: false, all: false };

    // choices is a list of the entries of a column, with how many rows have each; none for a single entry.
    function choices(c) {
      const counts = new Map();
      for (const row of texts) counts.set(row[c], (counts.get(row[c]) || 0) + 1);
      if (counts.size < 2) return null;
      const select = make('select', {}, make('option', { value: '' }, 'all'));
      [...counts.keys()].sort(collator.compare).forEach((entry) => {
        select.append(make('option', { value: '=' + entry }, (entry || 'empty') + ' (' + counts.get(entry) + ')'));
      });
      return { column: c, select };
    }

    function chosen() {
      const asked = field.value.toLowerCase().split(/\s+/).filter(Boolean);
      return lines.map((_, r) => r).filter((r) => asked.every((word) => words[r].includes(word)) &&
        selects.every(({ column, select }) => select.value === '' || select.value === '=' + texts[r][column]));
    }

    const keys = new Map(); // of sorted columns, by row; null comes last
    function keysOf(c) {
      if (!keys.has(c)) {
        keys.set(c, texts.map((row, r) => (undefinedAt(r, c) || row[c] === '' ? null : spec.columns[c].number ? exact(row[c], PLACES) : row[c])));
      }
      return keys.get(c);
    }

    function sorted(rows) {
      if (state.column < 0) return rows;
      const by = keysOf(state.column), sign = state.down ? -1 : 1;
      const compare = spec.columns[state.column].number ? (a, b) => (a < b ? -1 : a > b ? 1 : 0) : collator.compare;
      return rows.sort((a, b) => {
        if (by[a] === null || by[b] === null) return (by[a] === null) - (by[b] === null) || a - b;
        return sign * compare(by[a], by[b]) || a - b;
      });
    }

    // ---- elements ------------------------------------------------------------------------------

    const told = make('p', { class: 'told', role: 'status', 'aria-live': 'polite' });
    const back = make('button', { type: 'button' }, 'Show all ' + spec.noun + 's');
    const more = make('p', { class: 'more' });
    const body = make('tbody'), foot = make('tfoot');
    const copies = []; // of the page's own rows, once they are shown
    const columns = heads.map(head);
    const list = make('button', { type: 'button' });

    function head(name, c) {
      const button = make('button', { type: 'button' }, name);
      const el = own.tHead.rows[0].cells[c].cloneNode(false);
      el.append(button);
      button.addEventListener('click', () => {
        const first = spec.columns[c].number; // the largest number first
        state.down = state.column === c ? !state.down : first;
        state.column = c;
        update();
      });
      return el;
    }

    function build() {
      const root = host.attachShadow({ mode: 'open' });
      const page = new CSSStyleSheet(), inside = new CSSStyleSheet();
      page.replaceSync(document.querySelector('style').textContent);
      inside.replaceSync(STYLE);
      root.adoptedStyleSheets = [page, inside];
      const caption = document.getElementById(id + '-caption').textContent;
      const table = make('table', { class: own.className, 'aria-label': caption }, make('thead', {}, make('tr', {}, ...columns)), body, foot);
      foot.append(total.cloneNode(true));
      root.append(
        make('div', { class: 'sift', role: 'group', 'aria-label': 'Pick out ' + spec.noun + 's' },
          make('label', {}, spec.find, field),
          ...selects.map(({ column, select }) => make('label', {}, heads[column], select)), back),
        told, make('div', { class: 'tablewrap', tabindex: 0, role: 'region', 'aria-label': caption }, table), more);
    }

    function say(el, text) {
      if (el.textContent !== text) el.textContent = text; // what has not changed is not read out again
    }

    function update() {
      const rows = sorted(chosen());
      const listed = state.all ? rows : rows.slice(0, MOST);
      body.replaceChildren(...listed.map((r) => (copies[r] = copies[r] || lines[r].cloneNode(true))));
      columns.forEach((el, c) => {
        if (c === state.column) el.setAttribute('aria-sort', state.down ? 'descending' : 'ascending');
        else el.removeAttribute('aria-sort');
      });
      const whole = rows.length === lines.length;
      const sums = foot.rows[0].cells;
      for (const c of numbers.keys()) sums[c].textContent = plain(sumOf(c, rows), spec.columns[c]);
      sums[0].textContent = whole ? textOf(total.cells[0]) : 'Total of ' + rows.length.toLocaleString('en') + ' of ' + plural(lines.length);
      say(told, (whole ? 'All ' + plural(lines.length) : rows.length.toLocaleString('en') + ' of ' + plural(lines.length)) + ': ' +
        spec.tell.map((c) => heads[c].toLowerCase() + ' ' + (spec.columns[c].sum ? amount(sumOf(c, rows), spec.columns[c]) : '–')).join(', ') + '.');
      more.hidden = listed.length === rows.length;
      list.textContent = 'List all ' + rows.length.toLocaleString('en');
      more.replaceChildren('The first ' + MOST + ' are listed; the sums are of all. ', list);
    }

    function start() {
      if (!proved()) {
        console.error('the rows of ' + id + ' add up to other totals than the page has, so they cannot be picked out');
        return;
      }
      build();
      field.addEventListener('input', update);
      selects.forEach(({ select }) => select.addEventListener('change', update));
      list.addEventListener('click', () => { state.all = true; update(); });
      back.addEventListener('click', () => {
        field.value = '';
        selects.forEach(({ select }) => { select.value = ''; });
        state.column = -1;
        state.all = false;
        update();
      });
      update();
      const outside = new CSSStyleSheet();
      outside.replaceSync('@media screen { #' + id + '-wrap { display: none; } }');
      document.adoptedStyleSheets = [...document.adoptedStyleSheets, outside];
    }

    start();
  }

  if (!document.adoptedStyleSheets) return;
  for (const data of document.querySelectorAll('script[type="application/json"][data-sift]')) sift(data.dataset.sift, JSON.parse(data.textContent));
})();
