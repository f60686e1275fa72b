// Life-cycle costs of a study, for the page's "what if". This is the method a second time, after the
// one that made the page's figures: the same chains, the same lines, each rounded once to the
// currency's minor unit. The program's tests hold the two together to the last digit.
//
//   lifeCycle.evaluate(study, values)
//
// (values of what follows from others are not looked at: it is derived anew)
//
// study is the structure that the page carries; values has one decimal number, as text, for each
// input. A number in the structure that names an input is its place in values. The result has, for
// each alternative, present values in minor units (cents) as BigInt:
//
//   first     what is paid at the start
//   later     recoats, replacements and removals after that
//   upkeep    annual and periodic costs
//   residual  what is left at the end, as a credit: 0 or, as a rule, negative
//   lcc       the sum of these four, the life-cycle cost
//   worth     the level yearly cost of the same worth
//   savings   what it costs less than the base case; not there for the base case itself
//
// Where an alternative waits longer than the roof lasts that it waits on, there is no result, and
// evaluate throws a TooLongAWait that names the alternative.
const lifeCycle = (function () {
  'use strict';

  // ---- numbers: whole numbers of 10^-120, so that nothing is lost that a cent could depend on ----

  const PLACES = 120;
  const ONE = 10n ** BigInt(PLACES);
  const GUARD = 24;

  function read(text) {
    const [whole, part = ''] = text.replace('-', '').split('.');
    const x = BigInt(whole + part.slice(0, PLACES).padEnd(PLACES, '0'));
    return text.startsWith('-') ? -x : x;
  }

  const years = (n) => BigInt(n) * ONE;
  const times = (a, b) => (a * b) / ONE;
  const over = (a, b) => (a * ONE) / b;

  // power is x^n for whole n ≥ 0.
  function power(x, n) {
    let result = ONE;
    for (; n > 0; n >>= 1) {
      if (n & 1) result = times(result, x);
      x = times(x, x);
    }
    return result;
  }

  // root is the square root of x > 0, by Newton's method from above.
  function root(x) {
    const square = x * ONE;
    let guess = 1n << BigInt(Math.ceil(square.toString(2).length / 2));
    for (;;) {
      const next = (guess + square / guess) >> 1n;
      if (next >= guess) return guess;
      guess = next;
    }
  }

  // without rounds off the last digits of x, half away from zero.
  function without(x, digits) {
    const unit = 10n ** BigInt(digits);
    const size = x < 0n ? -x : x;
    const rounded = (size + unit / 2n) / unit;
    return x < 0n ? -rounded : rounded;
  }

  // settled takes what lies within 10^-24 of a whole number for that number: divisions may have left a
  // hair.
  function settled(x) {
    const whole = without(x, PLACES) * ONE, off = x < whole ? whole - x : x - whole;
    return off * 10n ** BigInt(GUARD) <= ONE ? whole : x;
  }

  // toMinor rounds an amount to the minor unit. What lies within 10^-24 of a unit of a half is taken
  // for the half: a division on the way to it may have left it a hair short.
  function toMinor(amount, digits) {
    return without(without(amount, PLACES - digits - GUARD), GUARD);
  }

  // ---- what follows from other inputs -------------------------------------------------------------

  // derive fills in the inputs that follow from others: a sum of products, each input as it is, as
  // its rest to one or dividing; rounded up to whole packs where material is sold so. What exceeds a
  // pack by 10^-24 of one or less does not exceed it, and what lies as near to a whole number is it.
  function derive(study, v) {
    const ways = {
      times: (p, x) => times(p, x), over: (p, x) => over(p, x),
      rest: (p, x) => times(p, ONE - x), over_rest: (p, x) => over(p, ONE - x),
    };
    for (const d of study.derived || []) {
      let sum = 0n;
      for (const term of d.terms) {
        sum += term.factors.reduce((p, f) => ways[f.how](p, v[f.of]), read(term.coefficient));
      }
      sum = settled(sum);
      if (d.pack) {
        const pack = read(d.pack);
        const packs = (over(sum, pack) - ONE / 10n ** BigInt(GUARD) + ONE - 1n) / ONE; // 0 or less: none
        sum = packs > 0n ? packs * pack : 0n;
      }
      v[d.in] = sum > 0n || d.signed ? sum : 0n;
    }
  }

  // ---- factors by half year: 0 is the base date, 2 the end of the first year ---------------------

  // compound is the product of 1 + rate(year) up to every half year; half a year is the square root.
  function compound(period, midYear, rate) {
    const out = [ONE];
    let last = null, half = ONE;
    for (let year = 1; year <= period; year++) {
      const step = ONE + rate(year);
      if (midYear && step !== last) half = root(step);
      last = step;
      out[2 * year - 1] = midYear ? times(out[2 * year - 2], half) : 0n;
      out[2 * year] = times(out[2 * year - 2], step);
    }
    return out;
  }

  // factorsOf gives what money grows by: at the discount rate, with general inflation, and with the
  // escalation of each cost category. A category without one follows general prices.
  function factorsOf(study, v) {
    const build = (rate) => compound(study.period, study.timing === 'mid-year', rate);
    const inflation = study.inflation === undefined ? null : build(() => v[study.inflation]);
    const general = study.basis === 'nominal' ? inflation : build(() => 0n);
    const built = {};
    for (const [category, rates] of Object.entries(study.escalation)) {
      built[category] = build((year) => v[rates[rates.length > 1 ? year - 1 : 0]]);
    }
    return { growth: build(() => v[study.rate]), inflation, escalation: (category) => built[category] || general };
  }

  // ---- the chain of an alternative ---------------------------------------------------------------

  class TooLongAWait extends Error {
    constructor(alternative) {
      super('alternative ' + alternative + ' waits longer than the roof lasts that it waits on');
      this.alternative = alternative;
    }
  }

  const LONGEST = 1000; // years; past every study period, so as good as any longer life

  // wholeYears rounds a life up: what follows is done at the end of the year in which it runs out.
  function wholeYears(life) {
    const up = (life + ONE - 1n) / ONE;
    return up > BigInt(LONGEST) ? LONGEST : Number(up);
  }

  // spells gives the stretches of years in which one renewal of one system stands on the roof:
  //   install  the year the system came onto the roof
  //   from     the year of its installation or last recoat, which its present life counts from
  //   until    the year of the next work, or the end of the study period
  //   begin    'kept' (it was there), 'installed' or 'recoated'
  //   end      'recoat', 'next' (the system is left) or 'horizon' (the study ends)
  function* spells(study, v, index) {
    const alternative = study.alternatives[index];
    let place = alternative.start, install = 0, from = 0, recoats = 0;
    let begin = study.systems[place].in_place ? 'kept' : 'installed';
    const wait = alternative.wait;
    if (wait) {
      const on = study.systems[wait.on];
      if (years(wait.years) > v[on.life]) throw new TooLongAWait(index);
      yield { system: on, life: v[on.life], install: 0, from: 0, until: wait.years, begin: 'kept', end: 'next' };
      install = from = wait.years;
      begin = 'installed';
    }
    for (;;) {
      const system = study.systems[place];
      const life = v[recoats > 0 ? system.recoat.life : system.life];
      const spell = { system, life, install, from, until: from + wholeYears(life), begin };
      if (spell.until >= study.period) {
        yield Object.assign(spell, { until: study.period, end: 'horizon' });
        return;
      }
      from = spell.until;
      if (system.recoat && recoats < system.recoat.at_most) {
        yield Object.assign(spell, { end: 'recoat' });
        recoats++;
        begin = 'recoated';
      } else {
        yield Object.assign(spell, { end: 'next' });
        place = system.then;
        install = from;
        recoats = 0;
        begin = 'installed';
      }
    }
  }

  // ---- the lines of an alternative ---------------------------------------------------------------

  function costsOf(study, v, factors, index) {
    const sums = { first: 0n, later: 0n, upkeep: 0n, residual: 0n };
    const { growth, inflation, escalation } = factors;
    const construction = escalation('construction');
    const end = 2 * study.period;
    const running = (year) => (study.timing === 'mid-year' ? 2 * year - 1 : 2 * year);

    // line rounds the present value of an amount paid at a time, once, and adds it.
    const line = (sum, time, amount) => { sums[sum] += toMinor(over(amount, growth[time]), study.digits); };
    const price = (item) => (item.quantity === undefined ? v[item.price] : times(v[item.price], v[item.quantity]));

    // pay pays an item at a time, in the given year of its age: 1 where it does not grow with age.
    function pay(sum, time, item, age) {
      const aged = item.growth === undefined ? price(item) : times(price(item), power(ONE + v[item.growth], age - 1));
      line(sum, time, times(aged, escalation(item.category)[time]));
    }

    // work pays all items of a job at the end of a year; that of year 0 is the first cost.
    function work(year, items) {
      for (const item of items) pay(year === 0 ? 'first' : 'later', 2 * year, item, 1);
    }

    function upkeep(spell) {
      const ageIn = (year, item) => year - (item.keeps_age ? spell.install : spell.from);
      for (const item of spell.system.annual) {
        for (let year = spell.from + 1; year <= spell.until; year++) pay('upkeep', running(year), item, ageIn(year, item));
      }
      // Periodic costs count from the installation. None falls in the year in which the system is
      // left, nor in the last of the study; in the year of a recoat the system stays.
      const last = spell.end === 'recoat' ? spell.until : spell.until - 1;
      for (const item of spell.system.periodic) {
        const served = Math.floor((spell.from - spell.install) / item.every);
        for (let year = spell.install + (served + 1) * item.every; year <= last; year += item.every) {
          pay('upkeep', running(year), item, ageIn(year, item));
        }
      }
    }

    // residual credits what is left at the end: a stated amount, or of the construction items of the
    // renewal in place, at the prices paid for them, the share of their life that is not used up.
    function residual(spell) {
      const { mode, amount } = spell.system.residual;
      if (mode === 'amount') line('residual', end, times(-v[amount], construction[end]));
      const unused = spell.life - years(study.period - spell.from);
      if (mode !== 'prorated' || unused <= 0n || spell.begin === 'kept') return;
      const share = over(unused, spell.life);
      const time = 2 * spell.from;
      // What was paid then, in money of the end: general inflation in between, where amounts include it.
      const restated = study.basis === 'nominal' ? over(inflation[end], inflation[time]) : ONE;
      const items = spell.begin === 'recoated' ? spell.system.recoat.costs : spell.system.first;
      for (const item of items.filter((i) => i.category === 'construction')) {
        const paid = times(times(price(item), share), construction[time]);
        line('residual', end, times(-paid, restated));
      }
    }

    for (const spell of spells(study, v, index)) {
      if (spell.begin === 'installed') work(spell.from, spell.system.first);
      if (spell.begin === 'recoated') work(spell.from, spell.system.recoat.costs);
      upkeep(spell);
      if (spell.end === 'next') work(spell.until, spell.system.removal);
      if (spell.end === 'horizon') residual(spell);
    }
    return sums;
  }

  // ---- the comparison ----------------------------------------------------------------------------

  function evaluate(study, values) {
    const v = values.map(read);
    derive(study, v);
    const factors = factorsOf(study, v);
    // What 1 at the end of every year is worth; a life-cycle cost divided by it is the level yearly cost.
    let uniform = 0n;
    for (let year = 1; year <= study.period; year++) uniform += over(ONE, factors.growth[2 * year]);

    const out = study.alternatives.map((_, index) => {
      const costs = costsOf(study, v, factors, index);
      costs.lcc = costs.first + costs.later + costs.upkeep + costs.residual;
      const exact = costs.lcc * 10n ** BigInt(PLACES - study.digits);
      costs.worth = toMinor(over(exact, uniform), study.digits);
      return costs;
    });
    const base = study.alternatives.findIndex((a) => a.base_case);
    if (base >= 0) out.forEach((costs, index) => { if (index !== base) costs.savings = out[base].lcc - costs.lcc; });
    return out;
  }

  return { evaluate, TooLongAWait, read, ONE };
})();
