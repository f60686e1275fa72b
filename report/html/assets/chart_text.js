// How the charts of the report write figures and names, for boot.js, which follows it in the page.
const chartText = (function () {
  'use strict';

  const LETTER = 6.6; // mean width of a letter at 12 px
  const NAME_LINE = 12; // height of a line of a name beside a bar
  const MOST_NAME_LINES = 8;

  const list = (x) => (x === undefined || x === null ? [] : [].concat(x));

  // trim writes x with at most n decimals: 1.50 is 1.5, and 2.00 is 2.
  const trim = (x, n) => String(Number(x.toFixed(n)));

  function grouped(x, digits) {
    const [whole, part] = Math.abs(x).toFixed(digits).split('.');
    return whole.replace(/\B(?=(\d{3})+$)/g, ',') + (part ? '.' + part : '');
  }

  function compact(x) {
    const a = Math.abs(x);
    if (a >= 1e9) return trim(a / 1e9, 3) + 'B';
    if (a >= 1e6) return trim(a / 1e6, 3) + 'M';
    if (a >= 1e3) return trim(a / 1e3, 3) + 'k';
    return trim(a, 2);
  }

  function money(x, text, hints) {
    const m = hints.money || {};
    // A figure that rounds to zero has no sign.
    const sign = x < 0 && /[1-9]/.test(text) ? '-' : '';
    return sign + (m.prefix || '') + text + (m.suffix || '');
  }

  function digitsOf(hints) {
    return hints.money && hints.money.digits >= 0 ? hints.money.digits : 2;
  }

  const percent = (x) => trim(x * 100, 2) + '%';
  const number = (x) => (x < 0 ? '-' : '') + grouped(x, Number.isInteger(x) ? 0 : 2);

  // short is the text of an axis tick, full that of a tooltip; brief, beside a bar, has three digits.
  const short = {
    money: (x, hints) => money(x, compact(x), hints),
    percent: percent,
    year: (x) => String(x),
    number: number,
  };
  const full = {
    money: (x, hints) => money(x, grouped(x, digitsOf(hints)), hints),
    percent: percent,
    year: (x) => 'Year ' + x,
    number: number,
  };
  const brief = Object.assign({}, short, {
    money: (x, hints) => money(x, compact(Number(x.toPrecision(3))), hints),
  });

  // write leaves alone what is no number (a category's name) and what has no kind.
  function write(style, kind, value, hints) {
    const f = style[kind];
    const x = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
    return f && typeof x === 'number' && isFinite(x) ? f(x, hints) : String(value);
  }

  const nameWidth = (width) => Math.min(220, width * 0.36);

  // roomForNames is the height at which no name beside a bar touches the next one.
  function roomForNames(axes, width) {
    const names = [].concat(...list(axes).map((axis) => list(axis.data)));
    const most = Math.max(1, ...names.map((name) => linesOf(String(name.value || name), nameWidth(width))));
    return names.length * (NAME_LINE * Math.min(most, MOST_NAME_LINES) + 6) + 60;
  }

  // brokenAtSpaces gives the lines of a text that is broken at spaces; the library would break at the comma of an amount too.
  function brokenAtSpaces(text, width) {
    const lines = [];
    for (const word of text.split(' ')) {
      const last = lines.length - 1;
      if (last >= 0 && LETTER * (lines[last].length + 1 + word.length) <= width) lines[last] += ' ' + word;
      else lines.push(word);
    }
    return lines;
  }

  // linesOf estimates how many lines a text takes that is broken at spaces, and within longer words.
  const linesOf = (text, width) => brokenAtSpaces(text, width).reduce((n, line) => n + Math.ceil(LETTER * line.length / width), 0);

  // plain keeps a name like "{a|b}" from being read as the library's own text markup, and one that
  // is written from right to left from turning the figure after it.
  const TURNS = /[\u0590-\u08ff\u200f\ufb1d-\ufdff\ufe70-\ufeff]/;
  const isolated = (s) => (TURNS.test(s) ? '\u2068' + s + '\u2069' : s);
  const plain = (s) => isolated(String(s).replace(/\{/g, '{\u200b'));

  return { LETTER, list, nameWidth, brokenAtSpaces, roomForNames, plain, write, short, full, brief };
})();
