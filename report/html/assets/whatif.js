// The page's "what if": sliders over the ranges that the study states, and the comparison computed
// again by evaluate.js. What a reader tries must never be taken for the study's figures, so:
//
//   - All of it stands in a shadow root, which no browser saves with a page, and the section is shown
//     by a style sheet of this script, on screens only. The page's own elements are not touched.
//   - Before anything is shown, the study's own values are evaluated here, and must give the figures
//     that the page carries from the ledger.
//   - A value or a figure that is not the study's has the study's beside it.
//
// Texts of the study are put into the page as text nodes only.
(function () {
  'use strict';

  const host = document.getElementById('what-if-host');
  const carried = document.getElementById('what-if-data');
  if (!host || !carried || !document.adoptedStyleSheets) return;

  const data = JSON.parse(carried.textContent);
  const study = data.study;
  const sliders = data.groups.flatMap((group) => group.sliders);
  const names = study.alternatives.map((a) => '“' + a.name + '”');
  const root = host.attachShadow({ mode: 'open' });

  const STYLE = `
    * { box-sizing: border-box; }
    .frame { border: 3px dashed var(--accent-2); padding: 1rem 1.1rem; background: var(--tint); color: var(--ink); }
    h3 { margin: 0 0 .75rem; font-size: 1.05rem; line-height: 1.3; color: var(--accent-2); }
    p { margin: .35rem 0; max-width: 60rem; }
    .bar { margin: 0 0 .75rem; padding: .4rem 0 .6rem; background: var(--tint); border-bottom: 1px solid var(--rule); }
    .sentence { font-weight: 600; font-size: 1.1rem; line-height: 1.4; margin: 0 0 .5rem; }
    .groups { display: grid; gap: 1rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 19rem), 1fr)); }
    fieldset { margin: 0; min-width: 0; padding: .5rem .8rem .7rem; border: 1px solid var(--rule); background: var(--paper); }
    legend { padding: 0 .3rem; font-weight: 600; overflow-wrap: anywhere; }
    .slider { margin-top: .6rem; }
    .head { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 1rem; }
    output { font-weight: 600; font-variant-numeric: tabular-nums; }
    input { display: block; width: 100%; height: 1.75rem; margin: .1rem 0; accent-color: var(--accent-2); }
    .ends { display: flex; justify-content: space-between; gap: 1rem; }
    .ends, .note, .moves, .own { color: var(--muted); font-size: .875rem; font-variant-numeric: tabular-nums; }
    .slider .own { min-height: 1.4em; }
    button { font: inherit; padding: .35rem .9rem; color: var(--ink); background: var(--paper); border: 1px solid var(--muted); cursor: pointer; }
    button:disabled { color: var(--muted); cursor: default; }
    :focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
    .wrap { overflow-x: auto; margin-top: .75rem; }
    table { border-collapse: collapse; font-size: .925rem; line-height: 1.35; }
    caption { text-align: left; color: var(--muted); padding-bottom: .3rem; }
    th, td { padding: .35rem .55rem; text-align: right; vertical-align: top; border-bottom: 1px solid var(--rule); font-variant-numeric: tabular-nums lining-nums; }
    th { font-weight: 400; overflow-wrap: break-word; max-width: 14rem; }
    thead > tr > * { font-weight: 600; vertical-align: bottom; border-bottom: 2px solid var(--ink); }
    th:first-child { text-align: left; min-width: 8rem; }
    td span { display: block; white-space: nowrap; }
    .total > * { font-weight: 600; border-top: 2px solid var(--ink); }
    td .own { font-weight: 400; }
    @media (min-height: 34rem) { .bar { position: sticky; top: 0; z-index: 1; } input { scroll-margin-top: 10rem; } }
    @media (max-width: 36rem) { .frame { padding: .75rem .6rem; } .sentence { font-size: 1rem; } }`;

  // ---- how figures look ------------------------------------------------------------------------

  // digitsOf writes a size in minor units with its decimals, in groups of three.
  function digitsOf(minor) {
    const digits = data.money.digits;
    const text = String(minor < 0n ? -minor : minor).padStart(digits + 1, '0');
    const whole = text.slice(0, text.length - digits).replace(/\B(?=(\d{3})+$)/g, ',');
    return digits > 0 ? whole + '.' + text.slice(-digits) : whole;
  }

  const plain = (minor) => (minor < 0n ? data.money.minus : '') + digitsOf(minor);
  const amount = (minor) => (minor < 0n ? data.money.negative : data.money.positive).join(digitsOf(minor));

  function listed(items) {
    return items.length < 2 ? items.join('') : items.slice(0, -1).join(', ') + ' and ' + items[items.length - 1];
  }

  // ---- the comparison --------------------------------------------------------------------------

  // valuesAt is one value for every input of the study, with the sliders at some positions.
  function valuesAt(positions) {
    const values = study.values.slice();
    sliders.forEach((slider, i) => {
      slider.inputs.forEach((input, j) => { values[input] = slider.positions[positions[i]].values[j]; });
    });
    return values;
  }

  // ranked are the alternatives that may be chosen, cheapest first; those that tie in the study's order.
  function ranked(outcomes) {
    const eligible = outcomes.map((_, i) => i).filter((i) => study.alternatives[i].eligible);
    return eligible.sort((a, b) => (outcomes[a].lcc < outcomes[b].lcc ? -1 : outcomes[a].lcc > outcomes[b].lcc ? 1 : a - b));
  }

  // nearTie tells whether a margin is less than estimates are good for.
  function nearTie(margin, lcc) {
    const size = lcc < 0n ? -lcc : lcc;
    return margin * lifeCycle.ONE < size * lifeCycle.read(data.tie_share);
  }

  // unshown warns of an answer that is not shown to be allowed.
  function unshown(i) {
    return data.standing.unshown[i] && ' ' + data.standing.unshown[i];
  }

  // answer says in words who costs least.
  function answer(outcomes, settings) {
    const order = ranked(outcomes);
    if (order.length === 0) return 'Every alternative is ruled out, so none is called the lowest.';
    const [lowest, next] = order;
    if (next === undefined) {
      const only = names.length > 1 ? ' is the only alternative that is not ruled out' : ' is the only alternative of this study';
      return names[lowest] + only + ': ' + settings + ' it costs ' + amount(outcomes[lowest].lcc) + '.' + unshown(lowest);
    }
    const tied = order.filter((i) => outcomes[i].lcc === outcomes[lowest].lcc);
    const margin = outcomes[next].lcc - outcomes[lowest].lcc;
    let text = settings + ' ' + names[lowest] + ' costs least, ';
    if (tied.length > 1) text = settings + ' ' + listed(tied.map((i) => names[i])) + ' tie to the last digit: each costs ' + amount(outcomes[lowest].lcc) + '.';
    else if (nearTie(margin, outcomes[lowest].lcc)) text += 'but only ' + amount(margin) + ' less than ' + names[next] + ': for practical purposes the two tie.';
    else text += amount(margin) + ' less than ' + names[next] + '.';
    const near = order.filter((i) => i === lowest || i === next && nearTie(margin, outcomes[lowest].lcc) || tied.includes(i));
    text += near.map(unshown).join('');
    if (!tied.includes(data.lowest)) text += ' In the study itself it is ' + names[data.lowest] + '.';
    return text[0].toUpperCase() + text.slice(1);
  }

  // notPossible says why there is no comparison.
  function notPossible(problem, positions) {
    const { wait } = study.alternatives[problem.alternative];
    const on = study.systems[wait.on];
    const moved = sliders.findIndex((slider) => slider.inputs.includes(on.life));
    return 'Not possible with these settings: ' + names[problem.alternative] + ' waits ' + wait.years + (wait.years === 1 ? ' year' : ' years') +
      ' on “' + on.name + '”, whose service life would be ' + sliders[moved].positions[positions[moved]].text + '.';
  }

  // ---- elements --------------------------------------------------------------------------------

  function make(tag, attributes = {}, ...content) {
    const el = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) el.setAttribute(name, value);
    el.append(...content);
    return el;
  }

  // control makes the elements of a slider.
  function control(slider, i) {
    const own = slider.positions[slider.start].text;
    const input = make('input', { type: 'range', id: 'slider-' + i, min: 0, max: slider.positions.length - 1, step: 1, value: slider.start });
    const output = make('output', { for: 'slider-' + i });
    const was = make('p', { class: 'own' });
    const show = () => {
      const { text } = slider.positions[input.value];
      output.textContent = text;
      input.setAttribute('aria-valuetext', text);
      was.textContent = Number(input.value) === slider.start ? 'the study’s value' : 'the study’s value: ' + own;
    };
    const notes = (slider.notes || []).map((note) => make('p', { class: 'note' }, note));
    const last = slider.positions[slider.positions.length - 1].text;
    const el = make('div', { class: 'slider' },
      make('div', { class: 'head' }, make('label', { for: 'slider-' + i }, slider.label), output), input,
      make('div', { class: 'ends', 'aria-hidden': 'true' }, make('span', {}, slider.positions[0].text), make('span', {}, last)), was, ...notes);
    return { el, input, show };
  }

  const controls = sliders.map(control);
  const sentence = make('p', { class: 'sentence', 'aria-live': 'polite' });
  const back = make('button', { type: 'button' }, 'Back to the study’s values');
  const cells = new Map(); // by row, for each alternative

  function buildGroups() {
    let next = 0;
    return make('div', { class: 'groups' }, ...data.groups.map((group) => make('fieldset', {}, make('legend', {}, group.title),
      make('p', { class: 'moves' }, group.moves), ...group.sliders.map(() => controls[next++].el))));
  }

  function buildTable() {
    const body = make('tbody');
    const add = (key, label, total) => {
      const row = study.alternatives.map(() => make('td'));
      cells.set(key, row);
      body.append(make('tr', total ? { class: 'total' } : {}, make('th', { scope: 'row' }, label), ...row));
    };
    for (const figure of data.figures) add(figure.key, figure.label, figure.total);
    add('standing', data.standing.label, false);
    const heads = study.alternatives.map((a) => make('th', { scope: 'col' }, a.name));
    const table = make('table', {}, make('caption', {}, 'What if: not the study’s figures'),
      make('thead', {}, make('tr', {}, make('td'), ...heads)), body);
    return make('div', { class: 'wrap', tabindex: 0, role: 'region', 'aria-label': 'What if: the alternatives side by side' }, table);
  }

  function standing(i, lowest) {
    return (i === lowest ? data.standing.lowest : data.standing.other)[i];
  }

  // fill puts a text into a cell, and the study's own under it where that is another.
  function fill(cell, text, own) {
    cell.replaceChildren(make('span', { class: 'now' }, text));
    if (text !== own) cell.append(make('span', { class: 'own' }, 'study: ' + own));
  }

  function fillTable(outcomes) {
    const lowest = outcomes ? ranked(outcomes)[0] : -1;
    study.alternatives.forEach((_, i) => {
      for (const { key } of data.figures) {
        const own = data.own[i][key] === undefined ? data.standing.base_case : plain(BigInt(data.own[i][key]));
        const now = !outcomes ? '–' : outcomes[i][key] === undefined ? data.standing.base_case : plain(outcomes[i][key]);
        fill(cells.get(key)[i], now, own);
      }
      fill(cells.get('standing')[i], outcomes ? standing(i, lowest) : '–', standing(i, data.lowest));
    });
  }

  // ---- moving ----------------------------------------------------------------------------------

  function say(text) {
    if (sentence.textContent !== text) sentence.textContent = text; // what has not changed is not read out again
  }

  function update() {
    controls.forEach((c) => c.show());
    const positions = controls.map((c) => Number(c.input.value));
    const moved = positions.some((p, i) => p !== sliders[i].start);
    back.disabled = !moved;
    try {
      const outcomes = lifeCycle.evaluate(study, valuesAt(positions));
      fillTable(outcomes);
      say(answer(outcomes, moved ? 'with these settings' : 'with the study’s values'));
    } catch (problem) {
      if (!(problem instanceof lifeCycle.TooLongAWait)) throw problem;
      fillTable(null);
      say(notPossible(problem, positions));
    }
  }

  // proved tells whether the study's own values give the figures that the page carries.
  function proved() {
    const outcomes = lifeCycle.evaluate(study, valuesAt(sliders.map((slider) => slider.start)));
    return outcomes.every((outcome, i) => data.figures.every(({ key }) =>
      (outcome[key] === undefined ? undefined : String(outcome[key])) === data.own[i][key]));
  }

  function start() {
    if (!proved()) {
      console.error('what if: the study’s own values give other figures than the page has, so nothing is shown');
      return;
    }
    const inside = new CSSStyleSheet();
    inside.replaceSync(STYLE);
    root.adoptedStyleSheets = [inside];
    root.append(make('div', { class: 'frame' },
      make('h3', {}, 'What if? Move the sliders: these figures are not the study’s'),
      make('div', { class: 'bar' }, sentence, back),
      buildGroups(), ...data.still.map((text) => make('p', { class: 'note' }, text)), buildTable()));
    controls.forEach((c) => c.input.addEventListener('input', update));
    back.addEventListener('click', () => {
      controls.forEach((c, i) => { c.input.value = sliders[i].start; });
      update();
    });
    update();
    // Shown on screens, and without a trace in the page: a saved one comes without what was tried.
    const outside = new CSSStyleSheet();
    outside.replaceSync('@media screen { #what-if[hidden] { display: block; } }');
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, outside];
  }

  start();
})();
