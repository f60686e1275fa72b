// Draws the charts of the report; chart_text.js, before it, has how figures and names are written.
// Every chart is a <div class="plot" data-chart="ID">, with a static drawing in it for readers without
// script, and its options as JSON in <script type="application/json" data-options="ID">. The options
// are plain data; what needs a function (labels, tooltips) is chosen by name from "renderHints":
//
//   height            of the plot in CSS pixels, without the legend (360)
//   money             {"prefix": "$", "suffix": "", "digits": 2}
//   x, y              what stands on the axis: "money", "percent", "year" or "number"
//   v                 the same for the colour of a heat map
//   box               five names for the figures of a box, lowest first
//   points            the lines are not drawn, only their points, each with a name of its own
//
// A colour may be written "var(--s3)"; it is looked up in the style sheet, so that it follows the
// light and dark themes. Nothing here touches HTML text, so no text of the study can become code.
(function () {
  'use strict';

  const { LETTER, list, nameWidth, brokenAtSpaces, roomForNames, plain, write, short, full, brief } = chartText;

  const FAILED = 'This chart could not be drawn; its table below has the same numbers.';
  const PRINT_WIDTH = 640; // fits A4 and Letter inside the margins of the style sheet
  const PRINT_HEIGHT = 290; // so that two charts stand on a sheet
  const NARROW = 480;
  const LEGEND_ROW = 24;
  const MARK_ROW = 16;
  const BOX_NAMES = ['lowest', 'lower quartile', 'median', 'upper quartile', 'highest'];

  // Line n keeps its colour, dash and mark together, so that lines differ in black and white too.
  // The style sheet has the colours, --s1 to --s8.
  const DASHES = ['solid', [8, 4], [2, 3], [10, 4, 2, 4], 'solid', [4, 4], [12, 3, 2, 3, 2, 3], [1, 4]];
  const MARKS = ['circle', 'rect', 'triangle', 'diamond',
    'emptyCircle', 'emptyRect', 'emptyTriangle', 'emptyDiamond'];

  // The parts of a stacked bar get a texture each, for the same reason; the first stays plain.
  const texture = (shape) => Object.assign({ color: 'rgba(255,255,255,0.5)', symbolSize: 1, dashArrayX: [1, 0] }, shape);
  const TEXTURES = [
    { symbol: 'none' },
    texture({ symbol: 'rect', dashArrayY: [1.5, 5], rotation: -Math.PI / 4 }),
    texture({ symbol: 'circle', dashArrayX: [[6, 6], [0, 6, 6, 0]], dashArrayY: [6, 0], symbolSize: 0.5 }),
    texture({ symbol: 'rect', dashArrayY: [1.5, 5], rotation: Math.PI / 4 }),
    texture({ symbol: 'rect', dashArrayY: [1.5, 5] }),
    texture({ symbol: 'rect', dashArrayY: [1.5, 5], rotation: Math.PI / 2 }),
    texture({ symbol: 'rect', dashArrayY: [4, 3], rotation: -Math.PI / 4 }),
    texture({ symbol: 'rect', dashArrayY: [4, 3] }),
  ];

  const charts = [];
  let printing = false;

  // ---- colours -------------------------------------------------------------------------------

  function colour(name) {
    return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
  }

  function resolveColours(node) {
    for (const key of Object.keys(node)) {
      const v = node[key];
      const m = typeof v === 'string' && /^var\((--[a-z0-9-]+)\)$/.exec(v);
      if (m) node[key] = colour(m[1]);
      else if (v && typeof v === 'object') resolveColours(v);
    }
  }

  // slot gives the place in the palette of a series: that of the colour it names, else its own number.
  function slot(series, index) {
    const own = series.color || (series.itemStyle || {}).color || (series.lineStyle || {}).color;
    const m = /^var\(--s([1-8])\)$/.exec(own);
    return m ? m[1] - 1 : index % 8;
  }

  // ---- options -------------------------------------------------------------------------------

  // fill sets what the page has left open.
  function fill(target, defaults) {
    for (const key of Object.keys(defaults)) {
      const d = defaults[key];
      if (target[key] === undefined) target[key] = d;
      else if (d && typeof d === 'object' && !Array.isArray(d)
        && target[key] && typeof target[key] === 'object') fill(target[key], d);
    }
    return target;
  }

  function options(text, width) {
    const spec = JSON.parse(text);
    const hints = spec.renderHints || {};
    const option = spec.option;
    const series = (option.series = list(option.series));
    const slots = series.map(slot);
    resolveColours(option);

    const ink = colour('--ink');
    const theme = { ink: ink, muted: colour('--muted'), rule: colour('--rule'), paper: colour('--paper') };

    option.animation = false; // or a printed chart may be caught half grown
    option.backgroundColor = 'transparent';
    option.darkMode = false;
    option.aria = fill(option.aria || {}, {
      enabled: true, decal: { show: series.some((s) => s.stack), decals: slots.map((n) => TEXTURES[n]) },
    });
    option.aria.label = { enabled: false }; // the page has a better label
    fill(option, { textStyle: { color: ink, fontSize: 12, fontFamily: getComputedStyle(document.body).fontFamily } });
    for (const t of list(option.title)) fill(t, { textStyle: { color: ink, fontSize: 14 } });
    for (const v of list(option.visualMap)) {
      fill(v, {
        textStyle: { color: ink }, itemHeight: 180,
        text: [v.max, v.min].map((x) => write(brief, hints.v, x, hints)),
      });
    }

    const sideways = list(option.yAxis).some((a) => a.type === 'category')
      && list(option.xAxis).some((a) => a.type !== 'category');
    // The names of marked lines stand on top of the plot, below the name of the axis.
    const marks = MARK_ROW * placeMarks(series, width);
    const place = { sideways: sideways, width: width, marks: marks };
    for (const axis of list(option.xAxis)) axisDefaults(axis, 'x', hints, theme, place);
    for (const axis of list(option.yAxis)) axisDefaults(axis, 'y', hints, theme, place);
    series.forEach((s, i) => seriesDefaults(s, slots[i], hints, theme, sideways));

    const rows = legend(option, series, theme, width, hints.points);
    option.grid = fill(option.grid || {}, {
      left: 4, right: 20, bottom: 4, top: (rows ? 12 : 4) + rows * LEGEND_ROW,
      outerBoundsMode: 'same', outerBoundsContain: 'all', // axis labels and names stay inside
    });
    tooltip(option, series, hints, theme, sideways);
    const tall = hints.height || 360;
    const plain = printing ? Math.min(sideways ? tall * 0.8 : tall, PRINT_HEIGHT) : tall;
    const height = sideways ? Math.max(plain, roomForNames(option.yAxis, width)) : plain;
    return { option: option, height: height + rows * LEGEND_ROW };
  }

  function axisDefaults(axis, dim, hints, theme, place) {
    const kind = hints[dim];
    const line = { lineStyle: { color: theme.muted } };
    fill(axis, {
      nameTextStyle: { color: theme.muted },
      axisLine: fill({ show: true }, line),
      axisTick: line,
      axisLabel: { color: theme.muted, hideOverlap: true },
      splitLine: { lineStyle: { color: theme.rule } },
    });
    if (dim === 'x' && kind === 'money' && !place.sideways) fill(axis.axisLabel, { showMinLabel: false, showMaxLabel: false });
    if (dim === 'y' && !place.sideways) fill(axis.axisLine, { onZero: false }); // at the left, wherever zero is
    if (kind) fill(axis.axisLabel, { formatter: (v) => write(short, kind, v, hints) });
    if (dim === 'x') fill(axis, { nameLocation: 'middle', nameGap: 10 });
    else fill(axis, { nameTextStyle: { align: 'left' }, nameGap: 10 + place.marks });
    if (place.width < NARROW && axis.type !== 'category') fill(axis, { splitNumber: place.sideways ? 2 : 3 });
    if (kind === 'year' && axis.type !== 'category') fill(axis, { minInterval: 1, max: 'dataMax' });
    if (kind === 'year' && axis.type === 'category') {
      const step = list(axis.data).length > 61 || place.width < NARROW ? 10 : 5; // round years only
      fill(axis, { axisTick: { interval: 0 }, axisLabel: { interval: (index, year) => year % step === 0 } });
    }
    if (dim === 'y' && place.sideways) {
      // Names of alternatives are long: wrap them instead of squeezing the bars, and leave none out.
      const width = nameWidth(place.width);
      const formatter = (name) => brokenAtSpaces(String(name), width).join('\n');
      fill(axis, { inverse: true, axisLabel: { interval: 0, width: width, overflow: 'break', formatter: formatter } });
    }
    const names = list(axis.data).length;
    if (dim === 'x' && axis.type === 'category' && !kind && names > 0 && names <= 12) {
      // Show every name, wrapped, rather than every other one.
      axis.axisLabel.hideOverlap = false;
      fill(axis, { axisLabel: { interval: 0, width: (place.width - 80) / names - 6, overflow: 'break' } });
    }
  }

  // placeMarks keeps the names of marked lines apart and inside the figure, and returns how many
  // rows they take. A name that would touch the one before it goes to a second row.
  function placeMarks(series, width) {
    const marks = [].concat(...series.map((s) => list(s.markLine && s.markLine.data)))
      .filter((m) => typeof m.xAxis === 'number').sort((a, b) => a.xAxis - b.xAxis);
    const xs = [].concat(...series.map((s) => list(s.data).map((d) => list(d.value || d)[0])));
    const least = Math.min(...xs), plot = width - 80, scale = plot / (Math.max(...xs) - least);
    let rows = series.some((s) => s.markLine) ? 1 : 0;
    let taken = -Infinity;
    for (const m of marks) {
      const at = (m.xAxis - least) * scale, half = LETTER / 2 * String(m.name).length;
      const align = at < half - 40 ? 'left' : at > plot + 20 - half ? 'right' : 'center';
      const left = align === 'left' ? at : at - (align === 'right' ? 2 : 1) * half;
      const second = left < taken + 8;
      if (second) rows = 2;
      else taken = left + 2 * half;
      fill(m, { label: { align: align, distance: second ? 4 + MARK_ROW : 4 } });
    }
    return rows;
  }

  function seriesDefaults(s, n, hints, theme, sideways) {
    const paint = colour('--s' + (n + 1));
    fill(s, { color: paint });
    if (s.type === 'line') {
      const every = Math.max(1, Math.round(list(s.data).length / 6));
      if (hints.points) fill(s, { symbolSize: 8, showAllSymbol: true, lineStyle: { width: 0 } });
      fill(s, {
        symbol: MARKS[n],
        // A mark at every sixth part of the line, not at the same places as its neighbours.
        symbolSize: (value, p) => ((p.dataIndex + n) % every === 0 ? 8 : 0),
        lineStyle: { width: 2, type: DASHES[n] },
      });
    }
    if (s.type === 'bar') {
      // The edge parts what is stacked; round a bar of no height it would wipe out the axis.
      fill(s, { barMaxWidth: 44, itemStyle: s.stack ? { borderColor: theme.paper, borderWidth: 0.5 } : {} });
    }
    if (s.type !== 'line') fill(s, { emphasis: { disabled: true } });
    if (s.type === 'boxplot') fill(s, { itemStyle: { color: theme.rule, borderColor: theme.ink, borderWidth: 1.25 }, boxWidth: [8, 28] });
    if (s.label && s.label.show) {
      const kind = hints[sideways ? 'x' : 'y'];
      if (!/^inside|^$/.test(s.label.position || '')) fill(s.label, { color: theme.ink });
      fill(s.label, { formatter: (p) => write(brief, kind, valueOf(p, sideways), hints) });
    }
    if (s.markLine) {
      fill(s.markLine, {
        symbol: 'none', silent: true, precision: -1, // the line stands where it is stated, not at a rounded place
        lineStyle: { color: theme.muted, type: [3, 3], width: 1.25 },
        label: { color: theme.ink, formatter: '{b}' },
      });
    }
    if (s.markPoint) {
      fill(s.markPoint, {
        symbol: 'diamond', symbolSize: 10, itemStyle: { color: theme.ink },
        // The edge keeps the name readable where a line runs through it.
        label: { color: theme.ink, position: 'top', formatter: '{b}', textBorderColor: theme.paper, textBorderWidth: 3 },
      });
    }
    if (s.markArea) fill(s.markArea, { silent: true, itemStyle: { color: theme.rule, opacity: 0.5 }, label: { color: theme.ink } });
  }

  // legend places the names above the plot and returns the rows they need; the library does not
  // say how often it wraps, so the widths are estimated.
  function legend(option, series, theme, width, points) {
    const names = series.map((s) => s.name).filter(Boolean);
    const l = (option.legend = fill(option.legend || {}, {
      show: names.length > (points ? 0 : 1),
      left: 0, top: 0, padding: 0, itemGap: 10, itemWidth: 30, itemHeight: 12, textStyle: { color: theme.ink },
    }));
    if (!l.show) return 0;
    const widths = names.map((n) => 30 + 5 + 10 + LETTER * n.length);
    if (width < NARROW || Math.max(...widths) > width) {
      fill(l, { orient: 'vertical' });
      fill(l.textStyle, { width: width - 45, overflow: 'truncate' });
      return names.length;
    }
    let rows = 1, used = 0;
    for (const w of widths) {
      if (used + w > width && used > 0) { rows++; used = 0; }
      used += w;
    }
    return rows;
  }

  // ---- tooltips ------------------------------------------------------------------------------

  function valueOf(p, sideways) {
    if (!Array.isArray(p.value)) return p.value;
    return p.value[sideways ? 0 : 1];
  }

  function tooltip(option, series, hints, theme, sideways) {
    const byItem = hints.points || series.some((s) => s.type === 'heatmap' || s.type === 'boxplot');
    const bars = series.some((s) => s.type === 'bar');
    const kinds = sideways ? { base: hints.y, value: hints.x } : { base: hints.x, value: hints.y };

    function rows(p) {
      if (p.seriesType === 'boxplot') {
        return p.value.slice(-5).map((v, i) =>
          plain((hints.box || BOX_NAMES)[i]) + ': ' + write(full, kinds.value, v, hints));
      }
      if (p.seriesType === 'heatmap') return [write(full, hints.v || 'number', p.value[2], hints)];
      if (hints.points) {
        const at = (dim, i) => list(option[dim + 'Axis'])[0].name + ': ' + write(full, hints[dim], p.value[i], hints);
        return [(p.marker || '') + plain(p.seriesName), plain(at('x', 0)), plain(at('y', 1))];
      }
      const v = valueOf(p, sideways);
      if (v === null || v === undefined || v === '-') return [];
      return [(p.marker || '') + plain(p.seriesName) + ': ' + plain(write(full, kinds.value, v, hints))];
    }

    function head(p) {
      if (hints.points) return p.name;
      if (p.seriesType === 'heatmap') {
        const at = (dim, i) => write(full, hints[dim], list(list(option[dim + 'Axis'])[0].data)[i], hints);
        return at('x', p.value[0]) + ', ' + at('y', p.value[1]);
      }
      const base = p.axisValue !== undefined ? p.axisValue : p.name || list(p.value)[sideways ? 1 : 0];
      return write(full, kinds.base, base, hints);
    }

    option.tooltip = fill(option.tooltip || {}, {
      trigger: byItem ? 'item' : 'axis',
      confine: true,
      backgroundColor: theme.paper,
      borderColor: theme.muted,
      borderWidth: 1,
      textStyle: { color: theme.ink, fontSize: 12 },
      axisPointer: { type: bars ? 'shadow' : 'line', lineStyle: { color: theme.muted }, shadowStyle: { color: theme.rule, opacity: 0.4 } },
      formatter: (params) => {
        const items = list(params);
        return [plain(head(items[0]))].concat(...items.map(rows)).join('\n');
      },
    });
    option.tooltip.renderMode = 'richText'; // HTML tooltips need style attributes, which the page forbids
  }

  // ---- drawing -------------------------------------------------------------------------------

  window.__chartsDrawn = 0;
  window.__chartErrors = 0;

  function draw(c) {
    if (c.failed) return;
    try {
      c.el.style.width = printing ? PRINT_WIDTH + 'px' : '';
      const width = c.el.clientWidth || PRINT_WIDTH; // 0 inside closed details
      const o = options(c.text, width);
      c.el.style.height = o.height + 'px';
      if (c.chart) c.chart.resize({ width: width, height: o.height });
      else c.chart = echarts.init(c.el, null, { renderer: 'svg', width: width, height: o.height });
      c.chart.setOption(o.option, true);
      if (c.still) c.still.remove();
      c.el.removeAttribute('tabindex'); // only the static drawing scrolls
      c.width = width;
      if (!c.drawn) window.__chartsDrawn++;
      c.drawn = true;
    } catch (err) {
      fail(c, err);
    }
  }

  function fail(c, err) {
    console.error('chart ' + c.el.dataset.chart + ': ' + err);
    c.failed = true;
    window.__chartErrors++;
    if (c.drawn) window.__chartsDrawn--;
    try { if (c.chart) c.chart.dispose(); } catch (ignored) { /* it is being replaced anyway */ }
    c.el.style.width = c.el.style.height = '';
    c.el.classList.add('failed');
    c.el.removeAttribute('role');
    c.el.role = 'group'; // the sentence is text to be read, not part of a picture
    const sentence = document.createElement('p');
    sentence.textContent = FAILED;
    c.el.replaceChildren(sentence);
    if (c.still) {
      c.el.append(c.still);
      c.el.tabIndex = 0;
    }
  }

  const drawAll = () => charts.forEach(draw);

  function setPrinting(on) {
    if (on === printing) return;
    printing = on;
    document.documentElement.classList.toggle('printing', on); // the light colours, whatever the theme
    for (const d of document.querySelectorAll('details[data-print="open"]')) {
      if (on && !d.open) { d.open = true; d.dataset.opened = ''; }
      if (!on && 'opened' in d.dataset) { d.open = false; delete d.dataset.opened; }
    }
    drawAll();
  }

  function start() {
    const texts = new Map();
    for (const s of document.querySelectorAll('script[type="application/json"][data-options]')) {
      texts.set(s.dataset.options, s.textContent);
    }
    for (const el of document.querySelectorAll('.plot[data-chart]')) {
      const still = el.querySelector('svg.static');
      el.replaceChildren(...(still ? [still] : [])); // a page saved by a browser has old drawings
      charts.push({ el: el, still: still, text: texts.get(el.dataset.chart) });
    }
    setPrinting(window.matchMedia('print').matches);
    if (!printing) drawAll();
  }

  start();
  window.addEventListener('beforeprint', () => setPrinting(true));
  window.addEventListener('afterprint', () => setPrinting(false));
  window.matchMedia('print').addEventListener('change', (e) => setPrinting(e.matches));
  window.matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawAll);

  let queued = false;
  function redrawChanged() {
    if (queued || printing) return;
    queued = true;
    requestAnimationFrame(() => {
      queued = false;
      charts.filter((c) => c.el.clientWidth && c.el.clientWidth !== c.width).forEach(draw);
    });
  }
  window.addEventListener('resize', redrawChanged);
  document.addEventListener('toggle', redrawChanged, true); // a chart inside details that open
})();
