/**
 * <footvalve-suction-check> asks what decides whether a pump can draw water from a well by suction, and shows the
 * service's answer with how sure it is.
 *
 * Attributes: pump-name, rated-lift or npsh-required ("24 ft"), flow ("4 gal/min"), pump-style (rotary, centrifugal),
 * units (us, metric), lang, theme (light, dark), service, permalink (which id, else pump-name tells from others); for
 * the site sheet also pump-points, rise and flow ("20 psi 4.2 gal/min, 50 psi 3.6 gal/min"), and switch ("20 psi, 40 psi").
 * Events: answered and refused, whose `detail` is the whole answer or problem, and changed, when an answer that was
 * told stands no longer.
 * Custom properties: --footvalve-accent and so on, as in suction-check.css; --footvalve-font, --footvalve-radius.
 * Parts: title, question, field, hint, error, doubt, input, select, button, main, stopwatch, drops, assumptions,
 * status, verdict, result, balance, profile, levers, cautions, tools.
 */

const NAME = 'footvalve-suction-check';
const ORIGIN = new URL(import.meta.url).origin;
const FRAGMENT = '#footvalve?';

// --- What is asked

const SIZES = ['3/4', '1', '1-1/4', '1-1/2'];

/**
 * A number is in US units, within `range`; the others are choices, whose options stand in the texts. `doubts` are
 * the standard uncertainties of "exactly", "about" and "a guess", `share` the same as parts of the value, `sure` the
 * usual one of them; `when` is the choice that a field belongs to. Common practice, no source.
 */
const FIELDS = {
  known: {},
  depth: { unit: 'ft', range: [0, 3000], doubts: [0.1, 2, 5], when: ['known', 'tape'] },
  top: { unit: 'ft', range: [-30, 30], usual: 1, doubts: [0.1, 0.2, 0.5], when: ['known', 'stone'] },
  side: {},
  pump: { unit: 'ft', range: [0, 300], doubts: [0.1, 1, 3] },
  exit: {},
  distance: { unit: 'ft', range: [0, 9000], share: [0.01, 0.1, 0.25] },
  pipe: {},
  bore: { unit: 'in', range: [0.25, 6], doubts: [0.02, 0.06, 0.12], when: ['pipe', 'measured'] },
  altitude: { unit: 'ft', range: [-1600, 16400], doubts: [10, 100, 300] },
  fall: { unit: 'ft', range: [0, 300], usual: 3, doubts: [0.3, 1, 1.5], sure: 2 },
  drawdown: { unit: 'ft', range: [0, 300], usual: 2, doubts: [0.1, 0.5, 1], sure: 2 },
  reach: { unit: 'ft', range: [0, 3000], usual: 20, doubts: [0.5, 4, 8], sure: 2 },
  temperature: { unit: 'degF', range: [32, 140], usual: 52, doubts: [1, 3, 6], sure: 2 },
  lower_end: {},
  bury: { unit: 'ft', range: [0, 30], usual: 4, when: ['exit', 'underground'] },
  elbows: { unit: '', range: [0, 100], usual: 3 },
  filter: {},
  flow: { unit: 'gal/min', range: [0.1, 200], share: [0, 0.05, 0.15], sure: 0 },
  'rated-lift': { unit: 'ft', range: [0, 32.8], share: [0, 0.05, 0.15], sure: 0 },
  'npsh-required': { unit: 'ft', range: [0.5, 49], share: [0, 0.05, 0.15], sure: 0 },
  delay: { unit: 's', range: [0, 1], usual: 0.2, doubts: [0.03, 0.05, 0.1], sure: 2, when: ['known', 'stone'] },
  stone: { unit: 'in', range: [0.2, 12], usual: 1, doubts: [0.1, 0.25, 0.4], when: ['known', 'stone'] },
  tap: { unit: 'ft', range: [-900, 900], usual: 10 },
};

const ASSUMED = {
  well: ['fall', 'drawdown', 'reach', 'temperature'],
  line: ['lower_end', 'bury', 'elbows', 'filter'],
  pump: ['flow', 'rated-lift', 'npsh-required'],
  stone: ['delay', 'stone'],
  house: ['tap'],
};

/**
 * What is not asked: value, unit, standard uncertainty. Common practice, no source. The bore of an unknown pipe may be
 * any of the sizes that can be chosen; the drops are those at `rated_flow`, else at the pump's own flow.
 */
const STATED = {
  on_top: [1, 'ft'],
  unknown_bore: [1, 'in', 0.25],
  pump_drop: [0.6, 'psi', 0.3],
  check_drop: [0.5, 'psi', 0.2],
  clean_filter: [0.3, 'psi'],
  filter_drop: [1, 'psi'],
  rated_flow: [3, 'gal/min'],
};

/** About what a US unit is in metric: the figures above are round. */
const METRIC = {
  ft: ['m', 0.3], in: ['mm', 25], psi: ['bar', 0.07], 'gal/min': ['L/min', 4], degF: ['degC', 5 / 9, -32],
};

/** How many L/min they are. */
const FLOWS = { 'L/s': 60, 'm^3/h': 1000 / 60 };

/** What each quantity in an entry of an attribute may come in. */
const LENGTH = ['ft', 'm'];
const FLOW = ['gal/min', 'L/min', 'L/s', 'm^3/h'];
/** How many kPa they are. */
const PRESSURES = { psi: 6.895, bar: 100, kPa: 1 };
const PRESSURE = Object.keys(PRESSURES);
const SHAPES = {
  'rated-lift': [LENGTH], 'npsh-required': [LENGTH], flow: [FLOW], 'pump-points': [PRESSURE, FLOW], switch: [PRESSURE],
};
/** Of these so many entries; of others one. */
const MOST = { 'pump-points': 99, switch: 2 };
/** The words of an attribute, the first of which goes without saying. */
const CHOICES = { 'pump-style': ['rotary', 'centrifugal'], units: ['us', 'metric'] };

/** Between plastic and old steel. */
const ROUGHNESS = { value: 0.05, unit: 'mm' };
/** Standard uncertainty of one time by hand, s. */
const WATCH = 0.1;
/** Drops whose scatter tells by itself how sure their mean is. */
const ENOUGH = 4;
/** A finger that bounced, and what the service takes, s. */
const [SHORTEST_FALL, LONGEST_FALL] = [0.1, 10];
/** A fall after the hand's delay, s; the stone has fallen a foot by then. */
const LEAST_FALL = 0.25;
const BY_STONE = /^(drops|top|delay|stone)/;
const BEARS_ON_DROPS = /^(known|altitude|top|delay|stone)/;
/** What stands at a field; `other` tells that a figure is not that of the pump. */
const NOTES = ['unit', 'hint', 'error', 'doubt', 'other'];
const OF_PUMP = /^(rated|npsh|flow|pump-[sn])/;
/** The chance of a plain yes. */
const SURE_ENOUGH = 0.9;
/** Up or down from an even chance: where one figure may turn the answer. */
const OPEN = 0.45;

// --- The questions to the service

const quantity = (value, unit, uncertainty) => (uncertainty ? { value, unit, uncertainty } : { value, unit });

const lengthInWell = ({ depth, reach, leaves }) => depth.value + reach.value + leaves.value;

/** The parts of the line, each with its field and that of its length. */
function suctionLine(given, names) {
  const { inlet, leaves, reach, stated } = given;
  const pipe = (name, length, end) => ({ part: 'pipe', name, ...pipeSize(given), length, end_elevation: end });
  const inWell = quantity(lengthInWell(given), leaves.unit, reach.uncertainty);
  const rise = Math.abs(inlet.value - leaves.value);
  const count = given.elbows.value;
  const outlet = given.exit === 'underground' ? 'pitless-adapter' : 'elbow-90';
  return [
    ...lowerEnd(given, names).map((part) => [part, 'lower_end']),
    [pipe(names.drop_pipe, inWell, leaves), 'pipe', 'reach'],
    [{ part: 'fitting', name: names[outlet], fitting: outlet }, 'exit'],
    given.distance.value && [pipe(names.line, given.distance, rise ? leaves : undefined), 'pipe', 'distance'],
    count > 0 && [{ part: 'fitting', name: names.elbows, fitting: 'elbow-90', count }, 'elbows'],
    given.filter === 'yes' && [{ part: 'strainer', name: names.filter, rated_flow: stated.rated_flow,
      clean_drop: stated.clean_filter, dirty_drop: stated.filter_drop }, 'filter'],
    rise && [pipe(names.riser, quantity(rise, inlet.unit)), 'pipe', 'pump'],
  ].filter(Boolean);
}

function lowerEnd({ lower_end: end, stated }, names) {
  if (end === 'foot') return [{ part: 'valve', name: names.foot_valve, valve: 'foot-valve-hinged' }];
  const open = { part: 'fitting', name: names.open_intake, fitting: 'entrance-sharp' };
  if (end === 'open') return [open];
  return [
    open,
    { part: 'idle-pump', name: names.idle_pump, flow: stated.rated_flow, drop: stated.pump_drop },
    { part: 'valve', name: names.check_valve, valve: 'spring-check', cracking_pressure: stated.check_drop },
  ];
}

function pipeSize({ pipe, bore, stated }) {
  const [product, nominal] = pipe.split(' ');
  if (nominal) return { size: { product, nominal } };
  const { value, unit, uncertainty = 0 } = bore ?? stated.unknown_bore;
  // One doubt, but the service takes that of each pipe as another.
  return { bore: { diameter: quantity(value, unit, Math.SQRT2 * uncertainty), roughness: ROUGHNESS } };
}

const POINTERS = {
  '/site/altitude': 'altitude', '/site/water_temperature': 'temperature', '/depth_to_water': 'depth',
  '/seasonal_fall': 'fall', '/drawdown': 'drawdown', '/flow': 'flow', '/pump/inlet_elevation': 'pump',
  '/pump/rated_suction_lift': 'rated-lift', '/pump/npsh_required': 'npsh-required', '/measurement': 'drops',
};

/** About what a figure in a US unit is in metric; a span has no offset. */
function inMetric(value, unit, offset = METRIC[unit][2] ?? 0) {
  return value && Number((METRIC[unit][1] * (value + offset)).toPrecision(2));
}

/** The ends of a field's range in a unit, if it has some there. */
function rangeIn(name, unit) {
  const { unit: own, range } = FIELDS[name] ?? {};
  if (unit === own) return range;
  const [metric] = METRIC[own] ?? [];
  const size = metric === 'L/min' ? FLOWS[unit] : undefined;
  return size || unit === metric ? range.map((end) => inMetric(end, own) / (size ?? 1)) : [];
}

/** The body for suction-feasibility, and its fields by JSON Pointer. */
function suctionQuestion(given, names) {
  const line = suctionLine(given, names);
  const body = {
    units: given.units,
    site: { altitude: given.altitude, water_temperature: given.temperature },
    depth_to_water: given.depth,
    seasonal_fall: given.fall,
    drawdown: given.drawdown,
    flow: given.flow,
    pump: {
      style: given.style,
      inlet_elevation: given.inlet,
      npsh_required: given['npsh-required'],
      rated_suction_lift: given['rated-lift'],
    },
    line: line.map(([part]) => part),
    limits: true,
    contributions: true,
  };
  const fields = { ...POINTERS, ...(given.known === 'stone' && { '/depth_to_water': 'drops' }) };
  line.forEach(([, field, ofLength = field], index) => {
    fields[`/line/${index}`] = field;
    fields[`/line/${index}/length`] = ofLength;
  });
  return { body, fields };
}

/** The body for sounding. Enough drops show their doubt by their scatter. */
function soundingQuestion(given, drops) {
  const body = {
    units: given.units,
    site: given.altitude && { altitude: { ...given.altitude, uncertainty: undefined } },
    measurement: {
      method: 'stone-drop',
      times: drops.map((time) => quantity(time, 's', drops.length < ENOUGH ? WATCH : 0)),
      reaction_delay: given.delay,
      stone_diameter: given.stone,
    },
    measuring_point_height: given.top,
  };
  return { body, fields: POINTERS };
}

/** The field at a JSON Pointer, or at the closest place above it. */
function fieldAt(fields, pointer) {
  while (pointer && !fields[pointer]) pointer = pointer.slice(0, pointer.lastIndexOf('/'));
  return fields[pointer];
}

// --- Asking

/** How long what can be done without is waited for, ms. */
const SHORTLY = 4000;

/** A problem that the service told of, with its status where it is one; without a problem it did not answer. */
const failure = (problem, fields) => Object.assign(new Error(), { problem, fields });

/** A connection that is made and then silent ends too. */
const get = (address, patience, settings) =>
  fetch(address, { ...settings, credentials: 'omit', signal: AbortSignal.timeout(patience) });

async function ask(address, { body, fields } = {}) {
  const post = body && { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
  let response, told;
  try {
    response = await get(address, 20000, post);
  } catch {
    throw failure();
  }
  const { ok, status } = response;
  try {
    told = await response.json();
  } catch {
    // A refusal is told by its status, whatever comes with it.
    if (ok) throw failure({});
  }
  // What stands before the service refuses in words of its own.
  if (!ok) throw failure({ detail: told?.message ?? status, ...told, status }, fields);
  return told;
}

/** Whether the service answers, even where its answers are not for pages of this origin. */
const isUp = (service) =>
  get(`${service}/embed/v1/texts`, SHORTLY, { mode: 'no-cors' }).then(() => true, () => false);

/** The rules of the look, apart from the script: a phone reads them while it reads the texts. The form does without. */
async function styleOf(service) {
  try {
    const response = await get(`${service}/embed/v1/suction-check.css`, SHORTLY);
    return response.ok && /^text\/css/.test(response.headers.get('content-type')) && await response.text();
  } catch {
    return false;
  }
}

/** The tag and the texts of its language; English where there are none. */
async function textsFor(service, tag) {
  const texts = async (language) => {
    const told = await ask(`${service}/embed/v1/texts/${language}.json`);
    if (!told?.fields) throw failure({});
    return told;
  };
  try {
    return [tag, await texts(tag.toLowerCase().split('-')[0])];
  } catch (failed) {
    const { status = 404 } = failed.problem ?? { status: 0 };
    if (status !== 404) throw failed;
    return ['en', await texts('en')];
  }
}

// --- Words and numbers in the reader's language

/** A sign, a number with its unit, and perhaps inches. */
const TYPED = /^([+-]?)\s*([\d.,]*\d[.,]?)\s*([^\d\s.,+-]\D*?)?(?:\s*([\d.,]*\d[.,]?)\s*([^\d\s.,+-]\D*?)?)?$/;
const FRACTION = /(?:(\d+)\s+)?(\d+)\s*[/⁄]\s*(\d+)/;
/** A power, be it of a unit, or a digit in a ring. */
const RAISED = /[\p{L}\p{N}]\p{No}|\p{No}\p{N}/u;
/** 15/16 may be fifteen to sixteen: nobody has three quarters of a foot. */
const BARE_FRACTION = /^\W*\d+\s*[/]/;
/** No number is so long, and the expressions above take their time for one. */
const LONGEST = 50;
const AMBIGUOUS = /^[1-9]\d{0,2}[.,]\d{3}$/;

const amount = (text) => Number(text.replace(',', '.'));

class Language {
  constructor(tag, texts) {
    Object.assign(this, { tag, texts });
    this.plurals = new Intl.PluralRules(tag);
  }

  /** The text at a path such as "answer.title", if there is one, with its {places} filled. */
  text(path, values = {}) {
    const template = path.split('.').reduce((branch, key) => branch?.[key], this.texts);
    return template?.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  }

  /** The unit that is written so. */
  unitOf(written = '') {
    const word = written.toLowerCase().replace(/\.$/, '');
    return Object.entries(this.texts.spellings).find(([, all]) => all.split(' ').includes(word))?.[0];
  }

  /** The number that was typed for a unit; else the key of what is wrong with it, and what its text has filled in. */
  parsed(typed, unit) {
    const apart = typed.replace(/[¼-¾⅐-⅞]/, ' $&');
    const isBare = unit !== 'in' && BARE_FRACTION.test(typed);
    if (typed.length > LONGEST || isBare || RAISED.test(apart)) return ['not_a_number'];
    // 31/2 may be 3 1/2.
    const text = apart.replace('º', '°').normalize('NFKC').replace('−', '-')
      .replace(FRACTION, (_, whole = 0, above, below) =>
        (above / below < 1 ? (Number(whole) + above / below).toFixed(6) : '?'))
      .replace(/(?<=\d)\s(?=\d{3}\b)/g, '').trim();
    if (!text) return ['required'];
    const [, sign, first = '-', its, second, other] = text.match(TYPED) ?? [];
    const unclear = [first, second].find((number) => AMBIGUOUS.test(number));
    if (unclear) {
      return ['ambiguous', { many: sign + unclear.replace(/\D/, ''), few: this.written(amount(sign + unclear)) }];
    }
    // 8'000 has a sign for thousands, and no inches.
    if (/^\d{3}/.test(second)) return ['ambiguous', { many: first + second, few: first }];
    const inches = amount(second ?? '0');
    const value = Number(`${sign}1`) * (amount(first) + inches / 12);
    // A degree is one of those that are asked for.
    const own = its || second ? this.unitOf(its === '°' ? unit.match(/deg./)?.[0] : its) : unit;
    const isSplit = own === 'ft' && (other ? this.unitOf(other) : 'in') === 'in';
    if (own === undefined || (second && !(isSplit && inches < 12)) || !Number.isFinite(value)) return ['not_a_number'];
    return own === unit ? value : ['other_unit'];
  }

  /** A number as this language types it: three decimals would be ambiguous. */
  written(number) {
    return `${number}`.replace(/\.\d{3}$/, '$&0').replace('.', this.figure(0.5)[1]);
  }

  figure(value, digits, roundingMode) {
    const fixed = { minimumFractionDigits: digits, maximumFractionDigits: digits };
    const options = digits === undefined ? { maximumSignificantDigits: 3, roundingMode } : fixed;
    return new Intl.NumberFormat(this.tag, options).format(value);
  }

  percent(fraction) {
    return new Intl.NumberFormat(this.tag, { style: 'percent' }).format(fraction);
  }

  /** A unit's name beside so many of it. */
  unitName(unit, count) {
    const own = this.texts.units[unit] ?? unit;
    return own[this.plurals.select(count)] ?? own.other ?? own;
  }

  /** "4.3 ± 1.2 ft": no finer than two digits of the uncertainty. What must hold is rounded to the side where it does. */
  measured({ value, unit, uncertainty }, roundingMode) {
    const name = this.unitName(unit, value);
    if (!uncertainty) return `${this.figure(value, undefined, roundingMode)} ${name}`;
    const digits = Math.min(3, Math.max(0, 1 - Math.floor(Math.log10(uncertainty))));
    return `${this.figure(value, digits)} ± ${this.figure(uncertainty, digits)} ${name}`;
  }
}

// --- Elements

/** A part is a class too; what is false or undefined is left out. */
function filled(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (value !== undefined && value !== false) element.setAttribute(name, value === true ? '' : value);
    if (name === 'part' && value) element.classList.add(...value.split(' '));
  }
  element.append(...children.flat(Infinity).filter(Boolean));
  return element;
}

const h = (tag, attributes = {}, ...children) => filled(document.createElement(tag), attributes, children);
const svg = (tag, attributes = {}, ...children) =>
  filled(document.createElementNS('http://www.w3.org/2000/svg', tag), attributes, children);

const p = (...children) => h('p', {}, children);
const opened = (title, ...children) => h('details', {}, h('summary', {}, title), children);
const list = (items) => h('ul', {}, items.map((item) => h('li', {}, item)));
const button = (text, onclick, attributes) =>
  h('button', { type: 'button', part: 'button', onclick, ...attributes }, text);

/** The service speaks English, and to who has a policy. */
const saidByService = (text) => h('span', { lang: 'en' }, `${text}`.replace('of the policy', 'asked for'));

/** Whether a drop lies far from the others. */
const isOdd = ({ warnings }, index) => warnings.some(({ pointer, detail }) =>
  pointer.endsWith(`/times/${index}`) && detail.includes('middle'));

// --- The stop-watch

/**
 * Times from press to press; each counts once it is released, as a swipe over the page begins with a press too. A click
 * without one comes from assistive technology. Gives back a halt.
 */
function stopwatch(target, onRun, onStop) {
  let started, ticking, pressed, isCounted;
  const halt = () => {
    clearInterval(ticking);
    started = undefined;
  };
  const stop = (time) => {
    halt();
    onStop(time);
  };
  const tick = () => {
    const time = (performance.now() - started) / 1000;
    if (time < LONGEST_FALL) onRun(time);
    else stop();
  };
  const press = ({ timeStamp }) => {
    const time = (timeStamp - started) / 1000;
    if (started === undefined) {
      started = timeStamp;
      ticking = setInterval(tick, 100);
      onRun(0);
    } else if (time > SHORTEST_FALL) stop(Number(time.toFixed(2)));
  };
  const key = (event) => {
    if (event.key !== ' ' && event.key !== 'Enter') return;
    // Else a click follows.
    event.preventDefault();
    if (event.type === 'keydown' && !event.repeat) press(event);
  };
  const pointer = (event) => {
    const { type, button } = event;
    const isUp = type === 'pointerup' && pressed;
    if (isUp || (type === 'click' && !isCounted)) press(isUp || event);
    // A finger that is lifted leaves, and then comes its click.
    if (type !== 'pointerleave') isCounted = isUp;
    pressed = type === 'pointerdown' && button === 0 && event;
  };
  for (const type of ['keydown', 'keyup']) target.addEventListener(type, key);
  for (const type of ['pointerdown', 'pointerup', 'pointercancel', 'pointerleave', 'click']) {
    target.addEventListener(type, pointer);
  }
  return halt;
}

// --- The profile, drawn

/** The places along the line, drawn in the well or at the pump, and the heights that matter. */
function sceneOf({ profile, npsh_required: needs, margin, pumping_depth: depth }, line) {
  let pipes = 0;
  const nodes = profile.map(({ elevation: { value: height }, above_vapour: left }, index) => {
    if (line[index - 1]?.part === 'pipe') pipes += 1;
    return { pipes, x: pipes > 1 ? 252 : 90, height, limit: height + left.value };
  });
  const inlet = nodes.at(-1).height;
  const needed = inlet + needs.value;
  const outside = nodes.filter((node) => node.pipes);
  return { nodes, outside, inlet, needed, reached: needed + margin.value, water: -depth.value };
}

/** From heights to the drawing: all of these fit, and what hangs far below them is cut off. */
function scale(heights) {
  const [top, bottom] = [Math.max(...heights), Math.min(...heights)];
  return (height) => Math.min(262, 18 + (200 * (top - height)) / (top - bottom));
}

const path = (name, d) => svg('path', { class: name, d });
const text = (told, x, y, anchor) => svg('text', { x, y, 'text-anchor': anchor }, told);

function profileDrawing(answer, line, language) {
  const { nodes, outside, inlet, needed, reached, water } = sceneOf(answer, line);
  const y = scale([0, water, inlet, needed, reached, ...outside.flatMap(({ height, limit }) => [height, limit])]);
  const told = (value) => language.measured({ value, unit: answer.margin.unit });
  const word = (key) => language.text(`profile.${key}`);
  const way = (name, places, key) => path(name, `M${places.map((place) => `${place.x},${y(place[key])}`).join('L')}`);
  const column = (name, height) => path(name, `M79,262V${y(height)}h22V262`);
  const bar = (name, from, to) => path(name, `M280,${y(from)}V${y(to)}`);
  const isShort = reached < needed;
  // What is missing may reach below the inlet: then nothing is left of what the pump needs.
  const [low, high] = isShort ? [reached, needed] : [needed, reached];
  const label = profileText(answer, outside, told, reached, language);
  const limit = outside[0].limit < outside[0].height ? 18 : -6;
  return svg('svg', { viewBox: '0 0 360 262', role: 'img', 'aria-label': label },
    path('soil', `M-2,270V${y(0)}H362V270`),
    column('shaft', Math.max(0, outside[0].height)), column('water', water),
    way('pipe', nodes, 'height'), way('limit', outside, 'limit'),
    low > inlet && bar('needs', inlet, low), bar(isShort ? 'short' : 'margin', low, high),
    svg('circle', { class: 'pump', cx: 252, cy: y(inlet), r: 8 }),
    text(word('ground'), 4, y(0) - 5),
    text(`${word('water')} ${told(water)}`, 108, y(water) + 14),
    text(`${word('pump')} ${told(inlet)}`, 240, y(inlet) + 20, 'end'),
    text(told(reached), 170, y(outside[0].limit) + limit, 'middle'),
    text(told(answer.margin.value), 290, y(high) + 4),
    !isShort && text(told(needed - inlet), 290, y(inlet) + 4));
}

function profileText(answer, outside, told, reached, language) {
  return language.text('profile.text', {
    water: language.measured(answer.pumping_depth),
    exit: told(outside[0].height),
    pump: told(outside.at(-1).height),
    limit: told(reached),
    needs: language.measured(answer.npsh_required),
    margin: language.measured(answer.margin),
  });
}

function profileFigure(answer, line, language) {
  const t = (key) => language.text(`profile.${key}`);
  const { npsh_available: has, margin } = answer;
  const key = ['limit', has.value > 0 && 'needs', margin.value < 0 ? 'short' : 'margin'].filter(Boolean);
  const swatch = (name) => svg('svg', { class: 'swatch', viewBox: '0 0 30 9' }, path(name, 'M0,4.5H30'));
  return h('figure', { part: 'profile' },
    h('h3', {}, t('title')),
    profileDrawing(answer, line, language),
    h('ul', { class: 'key', 'aria-hidden': 'true' },
      key.map((name) => h('li', {}, swatch(name), t(`key_${name}`)))),
    h('figcaption', { part: 'hint' }, t('note')));
}

// --- The answer, told

const MARKS = { feasible: '✓', unsure: '?', marginal: '!', infeasible: '✕' };

/** `unsure` is a yes that the reader's doubts leave open, or a figure that is not that of the pump. */
const verdictOf = ({ verdict, chance_feasible: chance = 1 }, isOther) =>
  verdict === 'feasible' && (isOther || chance < SURE_ENOUGH) ? 'unsure' : verdict;

/** What the chance of a yes hangs on, which the service points at; else where most of the margin's doubt comes from. */
function decisiveField({ contributions = [], warnings }, fields) {
  const ofChance = warnings.find(({ detail }) => detail.includes('chance'));
  const ofMargin = contributions.find((each) => each.quantity === '/margin')?.inputs[0];
  const decisive = ofChance ?? (ofMargin?.variance_fraction > 0.4 && ofMargin);
  return decisive && fieldAt(fields, decisive.pointer);
}

const placeOf = ({ index, name }, language) => (index === undefined ? language.text('parts.intake') : name);

/** As the service has it: suction to spare of a safe site. */
const safeMargin = (unit) => (unit === 'm' ? 0.9144 : 3);
/** The same height but for how the service rounds, in any unit. */
const NOTHING = 1e-4;

/** Water over the intake, how much is wanting there, and whether the margin is that of a safe site. */
function intakeOf({ profile: [intake], pumping_depth: { value, unit }, margin }) {
  const over = -value - intake.elevation.value;
  // As the service has it.
  const wanting = (unit === 'm' ? 0.3 : 0.3 / 0.3048) - over;
  return { over, wanting, unit, isShort: wanting > NOTHING, isAmple: margin.value >= safeMargin(unit) };
}

/** What stands against a yes besides the margin: a text for each, and what it has filled in. The figures tell it. */
function failures(answer, drawdown, language) {
  const { profile, pumping_depth: depth, margin, static_lift: lift, losses, verdict } = answer;
  const { unit } = depth;
  const safe = safeMargin(unit);
  const told = (value) => language.measured({ value, unit });
  const { over, isShort } = intakeOf(answer);
  const way = profile.slice(0, -1).map((node) => [node.above_vapour.value, node]);
  const [left, tight] = way.reduce((one, other) => (other[0] < one[0] ? other : one));
  const at = { place: placeOf(tight, language), left: told(Math.abs(left)) };
  const summit = depth.value - drawdown.value + Math.max(...profile.map(({ elevation }) => elevation.value));
  const reach = margin.value + lift.value + losses.value;
  const least = verdict === 'infeasible' ? 0 : safe;
  const found = [
    over < NOTHING ? ['dry', { water: told(depth.value), intake: told(-profile[0].elevation.value) }]
      : isShort && ['shallow', { over: told(over) }],
    left < 0 ? ['boils', at] : left < safe && ['tight', at],
    margin.value >= 0 && summit - reach > NOTHING && ['priming', { summit: told(summit), reach: told(reach) }],
  ].filter(Boolean);
  return found.length || margin.value < least || verdict === 'feasible' ? found : [['disc']];
}

function headline(answer, fields, language, { name: pump, units, isOther, drawdown, reach }) {
  const t = (key, values) => language.text(`answer.${key}`, { ...language.texts.here[units], ...values });
  const { margin, chance_feasible: chance } = answer;
  const verdict = verdictOf(answer, isOther);
  const failed = failures(answer, drawdown, language);
  const { isShort, isAmple } = intakeOf(answer);
  const told = verdict === 'marginal' && isAmple ? 'risky' : verdict;
  // The greatest doubt of the margin is not that of the intake; "exactly" is less than one of either unit.
  const decisive = Math.abs(chance - 0.5) < OPEN &&
    (isShort ? isAmple && !failed[1] && reach.uncertainty > 1 && 'reach' : decisiveField(answer, fields));
  return h('div', {},
    h('p', { class: verdict, part: 'verdict' },
      h('span', { class: 'mark', 'aria-hidden': 'true' }, MARKS[verdict]), h('strong', {}, t(told, { pump }))),
    failed.map(([why, values]) => p(t(`fails.${why}`, values))),
    isOther && verdict === 'unsure' && p(t('other')),
    p(t(margin.value < 0 ? 'short' : 'margin', { margin: language.measured(margin) })),
    chance !== undefined && p(t('chance', { chance: language.percent(Math.min(0.99, Math.max(0.01, chance))) })),
    decisive && p(t('hangs_on', { label: language.text(`fields.${decisive}.label`) })));
}

function balance(answer, t, language) {
  const { npsh_available: available, static_lift: lift, losses, npsh_required: needs, margin: rest } = answer;
  const carries = quantity(available.value + lift.value + losses.value, available.unit);
  return h('dl', { part: 'balance' }, Object.entries({ carries, lift, losses, needs, rest }).map(([key, value]) =>
    [h('dt', {}, t(key)), h('dd', {}, language.measured(value))]));
}

/** The service leaves the intake where it is; by the form it goes down with the water, and its pipe takes more. */
function deepestOf({ greatest_depth_to_water: { value, unit }, profile }, { line, depth_to_water: depth }) {
  const first = line.findIndex(({ part }) => part === 'pipe');
  const [below, above] = profile.slice(first, first + 2).map((node) => node.elevation.value + node.above_vapour.value);
  const more = (value - depth.value) / (1 + (below - above) / line[first].length.value);
  return quantity(Math.min(value, depth.value + more), unit);
}

function limitsView(answer, body, language) {
  const t = (key, values) => language.text(`answer.${key}`, values);
  const { tightest, greatest_flow: most } = answer;
  // The form hangs the pipe on the water: no depth mends an intake.
  const deepest = answer.greatest_depth_to_water && !intakeOf(answer).isShort && deepestOf(answer, body);
  const { value, unit } = tightest.above_vapour;
  const left = language.measured({ value: Math.abs(value), unit });
  const place = placeOf(tightest, language);
  return [
    h('h3', {}, t('limits')),
    balance(answer, t, language),
    p(t(value < 0 ? 'boils' : 'tightest', { place, left })),
    deepest?.value > NOTHING && p(t('as_deep_as', { depth: language.measured(deepest, 'floor') })),
    most && p(t('as_much_as', { flow: language.measured(most, 'floor') })),
  ];
}

/** In the reader's words where the texts have some, with the figure that comes first in those of the service. */
function leverView({ pointer, change, margin }, language) {
  const [, value, unit] = change.match(/(\d\S*)\s([^\s,.;]+)/) ?? [];
  const figure = isFinite(value) ? language.measured({ value, unit }) : `${value} ${language.unitName(unit)}`;
  const field = change.includes('NPSH') ? 'npsh_required' : pointer.split('/').at(-1);
  const own = unit && language.text(`levers.${field}`, { figure });
  const after = language.text('answer.after', { margin: language.measured(margin) });
  return [own ?? saidByService(change), ' ', after];
}

function leversView(answer, language) {
  const { levers = [], verdict } = answer;
  const t = (key, values) => language.text(`answer.${key}`, values);
  if (verdict === 'feasible') return [];
  const { wanting, unit, isShort, isAmple } = intakeOf(answer);
  const deeper = isShort && isAmple && t('deeper', { by: language.measured({ value: wanting, unit }, 'ceil') });
  const enough = levers.filter((lever) => lever.verdict === 'feasible');
  const [best, ...others] = [deeper, ...enough.map((lever) => leverView(lever, language))].filter(Boolean);
  if (!best) return p(t('no_lever'));
  return [
    h('h3', {}, t('help')),
    h('p', { part: 'levers' }, best),
    others.length > 0 && opened(t('more_help'), list(others)),
  ];
}

function cautionList(cautions, language) {
  const levels = Object.keys(language.texts.answer.severity);
  const ordered = levels.flatMap((level) => cautions.filter(({ severity }) => severity === level));
  return h('ul', { part: 'cautions' }, ordered.map(({ code, severity, text: told }) => h('li', { class: severity },
    h('strong', {}, language.text(`answer.severity.${severity}`)), ' ',
    language.text(`cautions.${code}`) ?? saidByService(told))));
}

// --- The element

class SuctionCheck extends HTMLElement {
  static observedAttributes =
    [...Object.keys(SHAPES), ...Object.keys(CHOICES), 'pump-name', 'lang', 'permalink', 'service'];

  root = this.attachShadow({ mode: 'open' });
  values = {};
  drops = [];
  rules = '';
  turn = 0;
  turns = { submit: 0, sound: 0 };

  connectedCallback() {
    addEventListener('hashchange', this.follow);
    if (!this.language) this.readLink();
    this.begin();
  }

  disconnectedCallback() {
    this.haltWatch?.();
    removeEventListener('hashchange', this.follow);
  }

  /** Take a link of this page that was opened on it. */
  follow = () => this.readLink() && this.begin();

  attributeChangedCallback(name, before, after) {
    if (before === after) return;
    // Feet that were typed are no metres.
    if (name === 'units') Object.assign(this, { values: {}, drops: [] });
    if (OF_PUMP.test(name)) this.forgetPump();
    this.begin();
  }

  /** What was typed for one pump is not true of another. */
  forgetPump() {
    for (const name of [...ASSUMED.pump, 'in']) for (const end of ['', '-sure']) delete this.values[name + end];
  }

  get service() {
    return (this.getAttribute('service') || ORIGIN).replace(/\/+$/, '');
  }

  get units() {
    return this.choice('units');
  }

  /** The word of an attribute with a closed list, whose first goes without saying. */
  choice(name) {
    return this.getAttribute(name)?.trim().toLowerCase() || CHOICES[name][0];
  }

  /** What an attribute tells, as a list of quantities for each entry; false where nobody can read it. */
  told(name) {
    const shape = SHAPES[name];
    const one = /(\d*\.?\d+)\s*([^\s\d.]\S*)/g;
    const entries = (this.getAttribute(name)?.trim() || undefined)?.split(',').map((entry) => {
      const found = [...entry.matchAll(one)].map(([, value, unit]) =>
        quantity(Number(value), this.language.unitOf(unit)));
      const isRead = ({ value, unit }, place) => shape[place]?.includes(unit) && !this.misfit(name, value, unit).length;
      return !entry.replace(one, '').trim() && found.length === shape.length && found.every(isRead) && found;
    }) ?? [];
    if (entries.length > (MOST[name] ?? 1) || !entries.every(Boolean)) return false;
    // A switch starts the pump at less than it stops it at.
    const [start, stop] = name === 'switch' ? entries.map(([{ value, unit }]) => value * PRESSURES[unit]) : [];
    return !(start >= stop) && entries;
  }

  /** A figure from above in the reader's units. */
  here(value, unit, uncertainty) {
    const [metric] = METRIC[unit] ?? [];
    if (this.units === 'us' || !metric) return quantity(value, unit, uncertainty);
    return quantity(inMetric(value, unit), metric, inMetric(uncertainty, unit, 0));
  }

  get stated() {
    const [[rated_flow] = []] = this.told('flow');
    const usual = Object.fromEntries(Object.entries(STATED).map(([name, told]) => [name, this.here(...told)]));
    return rated_flow ? { ...usual, rated_flow } : usual;
  }

  get pump() {
    return this.getAttribute('pump-name')?.trim() || this.t('this_pump');
  }

  /** What the page tells for a site sheet, if it is enough for one. */
  get sheet() {
    const [points, pressures] = ['pump-points', 'switch'].map((name) => this.told(name));
    return points.length > 1 && pressures.length > 1 && { points, pressures: pressures.flat() };
  }

  t(path, values) {
    return this.language.text(path, values);
  }

  /** Load the texts and ask; once for all attributes that change together. What was told stands no longer. */
  async begin(isRetry) {
    const turn = ++this.turn;
    this.forget();
    await null;
    if (turn !== this.turn || !this.isConnected) return;
    const { lang } = this.closest('[lang]:not([lang=""])') ?? document.documentElement;
    const [tag] = lang.match(/^[a-z]{2,3}(-[a-z]{2}\b)?/i) ?? ['en'];
    let loaded, style, isBarred;
    try {
      [loaded, style] = await Promise.all([textsFor(this.service, tag), styleOf(this.service)]);
    } catch ({ problem }) {
      if (problem) console.error(`${NAME}: ${this.service} sends no texts`);
      isBarred = !problem && await isUp(this.service);
    }
    if (turn !== this.turn) return;
    if (loaded) this.renderIn(loaded, style);
    else this.renderUnreachable(isBarred);
    // The button that had the focus is gone.
    if (isRetry && document.activeElement === document.body) this.root.querySelector('select, button')?.focus();
  }

  renderIn(loaded, style) {
    this.wear(style);
    this.language = new Language(...loaded);
    const misread = Object.keys(this.language.texts.forms).filter((name) =>
      (CHOICES[name] ? !CHOICES[name].includes(this.choice(name)) : !this.told(name)));
    if (misread.length) this.renderMisread(misread);
    else this.render();
  }

  /** A sheet belongs to the document that the element stands in by now. */
  wear(style) {
    this.rules = style || this.rules;
    if (!style) console.error(`${NAME}: ${this.service} sends no suction-check.css`);
    const sheet = new this.ownerDocument.defaultView.CSSStyleSheet();
    sheet.replaceSync(this.rules);
    this.root.adoptedStyleSheets = [sheet];
  }

  /** There are no texts: English, and what the page itself has between the tags. */
  renderUnreachable(isBarred) {
    if (isBarred) console.error(`${NAME}: ${this.service} must allow ${location.origin}`);
    const told = isBarred ? 'The suction check cannot be used on this page.' : 'The service cannot be reached.';
    this.renderInstead('en', 'ltr', p(told), button('Try again', () => this.begin(true)));
  }

  /** The author of the page has to mend these attributes. */
  renderMisread(names) {
    for (const name of names) {
      console.error(`${NAME}: write ${name} like ${this.t(`forms.${name}`)}, not ${this.getAttribute(name)}`);
    }
    this.renderInstead(this.language.tag, this.t('direction'), p(this.t('misread')));
  }

  renderInstead(lang, dir, ...told) {
    this.root.replaceChildren(h('div', { class: 'box' }, h('div', { lang, dir, role: 'alert' }, told), h('slot')));
  }

  // The form

  /** The form that goes, whatever was asked for it and what came of it. */
  forget() {
    this.haltWatch?.();
    this.turns.submit += 1;
    this.turns.sound += 1;
    for (const box of this.root.children) box.inert = true;
    this.status?.replaceChildren();
    this.result?.replaceChildren();
    this.unsettle();
  }

  /** In which units the figures of the pump are. */
  get in() {
    return ASSUMED.pump.map((name) => this.asked(name).unit).join(' ');
  }

  render() {
    if ((this.values.in ?? this.in) !== this.in) this.forgetPump();
    const t = (path) => this.t(path, { pump: this.pump });
    const question = (name, ...children) =>
      h('fieldset', { part: 'question' }, h('legend', {}, t(`questions.${name}`)), children);
    this.result = h('section', { part: 'result', 'aria-label': t('answer.title'), hidden: true });
    this.status = h('div', { role: 'status', 'aria-atomic': 'false', part: 'status' });
    this.root.replaceChildren(h('div', { class: 'box', lang: this.language.tag, dir: t('direction') },
      h('h2', { part: 'title' }, t('title')), p(t('intro')), h('p', { part: 'hint' }, t('sure.hint')),
      h('form', {
        onsubmit: (event) => (event.preventDefault(), this.submit()),
        oninput: (event) => this.change(event),
        onchange: ({ target: { name } }) => BEARS_ON_DROPS.test(name) && this.sound(),
      },
        question('water', this.field('known'), this.field('depth'), this.stonePanel()),
        question('pump', this.field('side'), this.field('pump')),
        question('way', ['exit', 'distance', 'pipe', 'bore'].map((name) => this.field(name))),
        question('altitude', this.field('altitude')),
        this.assumptions(),
        h('button', { part: 'button main' }, t('submit'))),
      this.status, this.result));
    this.showRelevant();
    if (this.drops.length) this.sound();
  }

  assumptions() {
    const groups = Object.entries(ASSUMED).map(([name, fields]) => h('fieldset', { class: 'group' },
      h('legend', {}, this.t(`assumed.${name}`)), fields.map((field) => this.field(field))));
    return h('details', { part: 'assumptions' }, h('summary', {}, this.t('assumed.title')),
      h('p', { part: 'hint' }, this.t('assumed.intro')), groups);
  }

  field(name) {
    const stated = Object.entries(this.stated).map(([key, value]) => [key, this.language.measured(value)]);
    const told = { ...this.language.texts.here[this.units], ...Object.fromEntries(stated) };
    const hint = this.t(`fields.${name}.hint`, told);
    const control = { id: name, name, 'aria-describedby': NOTES.map((each) => `${name}-${each}`).join(' ') };
    return h('div', { part: 'field', 'data-name': name },
      h('label', { for: name }, this.t(`fields.${name}.label`)),
      FIELDS[name].range ? this.number(name, control) : this.select(name, control, told),
      hint && h('p', { id: `${name}-hint`, part: 'hint' }, hint), this.messages(name));
  }

  messages(name) {
    return NOTES.slice(2).map((kind) =>
      h('p', { id: `${name}-${kind}`, part: kind === 'other' ? 'doubt' : kind, hidden: true }));
  }

  select(name, control, told) {
    const option = (value) => {
      const [kind, size] = value.split(' ');
      const text = this.t(`fields.${name}.options.${kind}`, told);
      const selected = value === this.chosen(name);
      return h('option', { value, selected }, size ? this.t('pipe_size', { kind: text, size }) : text);
    };
    return h('select', { part: 'select', ...control }, this.optionsOf(name).map(option));
  }

  number(name, control) {
    const { unit } = this.asked(name);
    return h('div', { class: 'row' },
      h('input', { part: 'input', inputmode: 'decimal', value: this.typed(name), ...control }),
      h('span', { class: 'unit', id: `${name}-unit` }, this.language.unitName(unit)), this.sure(name));
  }

  sure(name) {
    const { unit, doubts, share, sure } = this.asked(name);
    if (!doubts) return undefined;
    const worth = (doubt) => (share ? this.language.percent(doubt) : this.language.measured({ value: doubt, unit }));
    const option = (doubt, level) => h('option', { value: level, selected: level === sure },
      this.t(`sure.${doubt ? 'worth' : 'levels'}.${level}`, { doubt: worth(doubt) }));
    const label = `${this.t('sure.label')} ${this.t(`fields.${name}.label`)}`;
    return h('label', { class: 'sure' }, this.t('sure.label'),
      h('select', { name: `${name}-sure`, part: 'select', 'aria-label': label }, doubts.map(option)));
  }

  asked(name) {
    const { unit, usual, doubts, share, sure = 1 } = FIELDS[name];
    const [[told] = []] = SHAPES[name] ? this.told(name) : [];
    const level = this.values[`${name}-sure`];
    return {
      ...(told ?? this.here(usual, unit)),
      doubts: share ?? doubts?.map((doubt) => this.here(0, unit, doubt).uncertainty),
      share,
      sure: /^[012]$/.test(level) ? Number(level) : sure,
    };
  }

  typed(name) {
    const { value } = this.asked(name);
    return this.values[name] ?? (Number.isFinite(value) ? this.language.written(value) : '');
  }

  /** The first is usual. A pipe comes in sizes. */
  optionsOf(name) {
    const kinds = Object.keys(this.language.texts.fields[name].options);
    return kinds.flatMap((kind) => (kind.includes('-') ? SIZES.map((size) => `${kind} ${size}`) : kind));
  }

  chosen(name) {
    const options = this.optionsOf(name);
    return options.includes(this.values[name]) ? this.values[name] : options[0];
  }

  isRelevant(name) {
    const [choice, value] = FIELDS[name]?.when ?? [];
    if (choice) return this.chosen(choice) === value;
    if (name === 'tap') return Boolean(this.sheet);
    const hasNpsh = this.told('npsh-required').length > 0;
    return name === 'npsh-required' ? hasNpsh : name !== 'rated-lift' || !hasNpsh;
  }

  showRelevant() {
    for (const field of this.root.querySelectorAll('.field')) field.hidden = !this.isRelevant(field.dataset.name);
    this.root.querySelector('#by-stone').hidden = this.chosen('known') !== 'stone';
    for (const name of ASSUMED.pump) this.say(name, 'other', ...(this.isOther(name) ? [this.t('other')] : []));
  }

  /** Whether a figure differs from that which the page tells of the pump. */
  isOther(name) {
    const [[told] = []] = this.told(name);
    return told && this.language.parsed(this.typed(name), told.unit) !== told.value;
  }

  change({ target: { name, value } }) {
    this.values[name] = value;
    this.say(name, 'error');
    this.showRelevant();
    this.outdate();
    if (BEARS_ON_DROPS.test(name)) this.showDrops();
  }

  /** No answer to an older form stands beside a newer one unmarked, whether it is here or still to come. */
  outdate() {
    this.turns.submit += 1;
    const busy = this.root.querySelector('#busy');
    const told = h('p', { part: 'doubt' }, this.t('changed'));
    if (busy) busy.replaceWith(told);
    else if (!this.result.hidden && !this.result.inert) {
      for (const old of [...this.status.children, this.result]) old.inert = true;
      this.status.prepend(told);
    }
    this.unsettle();
  }

  /** What came with an answer goes with it: the doubts at the fields, and the page is told once. */
  unsettle() {
    this.unsay('doubt');
    if (this.isSettled) this.tell('changed');
    this.isSettled = false;
  }

  // The stone

  stonePanel() {
    const t = (key, values) => this.t(`stone.${key}`, values);
    const watch = button(t('start'), undefined, {
      part: 'button stopwatch', 'aria-describedby': 'drops-error drops-doubt',
    });
    const reading = h('p', { class: 'reading' }, t('idle'));
    const show = (label, text) => (watch.replaceChildren(t(label)), reading.replaceChildren(text));
    this.dropList = h('div', { part: 'drops' });
    this.found = h('div', { role: 'status' });
    this.haltWatch = stopwatch(watch,
      (time) => show('stop', t('listening', { time: this.language.figure(time, 1) })),
      (time) => {
        show('start', t('idle'));
        const fault = time ? this.faultOfTimes(time) : t('too_long', { time: LONGEST_FALL });
        if (fault) this.say('drops', 'error', fault);
        else this.changeDrops([...this.drops, time]);
      });
    return h('div', { id: 'by-stone' }, h('p', { part: 'doubt' }, t('before')), this.field('top'), p(t('how')),
      watch, reading, h('div', { 'aria-live': 'polite' }, this.messages('drops')), this.dropList, this.found);
  }

  /** What a hand takes, and as much as a stone that falls. */
  get leastTime() {
    return LEAST_FALL + (this.readNumber('delay', {})?.value ?? FIELDS.delay.usual);
  }

  /** What is wrong with drops of which one is hardly longer than that. */
  faultOfTimes(...times) {
    const short = times.find((time) => time < this.leastTime);
    return short && this.t('stone.too_short', { time: this.language.figure(short, 2) });
  }

  changeDrops(drops) {
    this.drops = drops;
    this.say('drops', 'error');
    this.outdate();
    this.sound();
  }

  sound() {
    this.turns.sound += 1;
    this.showDrops();
    const { given, faults } = this.read();
    if (given.known !== 'stone' || Object.keys(faults).some((name) => BY_STONE.test(name))) return;
    this.attempt('sound', async (isLast) => {
      const answer = await this.depthByStone(given);
      if (isLast()) this.showDrops(answer);
    });
  }

  depthByStone(given) {
    return ask(`${this.service}/v1/sounding`, soundingQuestion(given, this.drops));
  }

  showDrops(answer) {
    const { drops, language } = this;
    const t = (key, values) => this.t(`stone.${key}`, values);
    const remove = (index) => {
      this.changeDrops(drops.filter((_, place) => place !== index));
      this.controlOf('drops').focus();
    };
    const items = drops.map((time, index) => {
      const depth = answer && language.measured(answer.readings[index]);
      const values = { number: index + 1, time: language.figure(time, 2), depth };
      return [t(depth ? 'drop_depth' : 'drop', values), answer && isOdd(answer, index) && h('em', {}, t('odd')),
        button(t('remove'), () => remove(index), { 'aria-label': t('remove_drop', values) })];
    });
    this.dropList.replaceChildren(...(drops.length ? [h('h3', {}, t('drops')), list(items)] : []));
    this.found.replaceChildren(...(answer ? this.soundingView(answer) : []));
  }

  soundingView(answer) {
    const { warnings, depth_below_ground: depth, spread, cautions } = answer;
    const t = (key, values) => this.t(`stone.${key}`, values);
    const count = this.drops.length;
    const isDoubted = warnings.some(({ detail }) => detail.includes('should agree'));
    const agreement = count === 1 ? 'single' : isDoubted ? 'disagree' : count < ENOUGH ? 'few' : 'agree';
    const fault = this.faultOfDrops(answer);
    return [
      fault ? h('p', { part: 'error' }, fault)
        : p(h('strong', {}, t('found', { depth: this.language.measured(depth) }))),
      h('p', { part: isDoubted && 'doubt' }, t(agreement, { count, spread: this.language.measured(spread) })),
      ...(fault ? [] : [opened(t('cautions'), cautionList(cautions, this.language))]),
    ];
  }

  /** Why no depth may be taken from the drops, if so. */
  faultOfDrops(answer) {
    const odd = this.drops.findIndex((_, index) => isOdd(answer, index));
    if (odd >= 0) return this.t('stone.far_off', { number: odd + 1 });
    return answer.depth_below_ground.value > 0 ? undefined : this.t('stone.above_ground');
  }

  // Reading the form

  /** What was given, and what is wrong with it by field. */
  read() {
    const faults = {};
    const { units, stated } = this;
    const isOther = ASSUMED.pump.some((name) => this.isOther(name));
    const given = { units, stated, isOther, style: this.choice('pump-style'), name: this.pump };
    for (const name of Object.keys(FIELDS).filter((each) => this.isRelevant(each))) {
      if (FIELDS[name].range) given[name] = this.readNumber(name, faults);
      else if (this.chosen(name) === 'unset') faults[name] = this.t('choose');
      else given[name] = this.chosen(name);
    }
    const ofDrops = this.drops.length ? this.faultOfTimes(...this.drops) : this.t('no_drop');
    if (given.known === 'stone' && ofDrops) faults.drops = ofDrops;
    return { given, faults };
  }

  readNumber(name, faults) {
    const { unit, doubts, share, sure } = this.asked(name);
    const value = this.language.parsed(this.typed(name), unit);
    const [key, values] = Number.isFinite(value) ? this.misfit(name, value, unit) : value;
    if (!key) {
      const doubt = doubts?.[sure] ?? 0;
      return quantity(value, unit, share ? doubt * Math.abs(value) : doubt);
    }
    const filledIn = { unit: this.language.unitName(unit), example: this.language.written(12.5), ...values };
    faults[name] = this.t(`${key}_${name}`, filledIn) ?? this.t(key, filledIn);
    return undefined;
  }

  /** What is wrong with a number for its field, if something is. */
  misfit(name, value, unit) {
    const [low, high] = rangeIn(name, unit);
    if (!unit && value % 1) return ['not_a_number'];
    const told = (end) => this.language.measured({ value: end, unit });
    return value < low || value > high ? ['outside', { low: told(low), high: told(high) }] : [];
  }

  // Asking

  submit() {
    this.clear();
    const { given, faults } = this.read();
    if (Object.keys(faults).length) return this.showFaults(faults);
    this.status.replaceChildren(h('p', { id: 'busy' }, this.t('busy')));
    this.attempt('submit', (isLast) => this.check(given, isLast));
  }

  async check(given, isLast) {
    const sounding = given.known === 'stone' && await this.depthByStone(given);
    if (!isLast()) return;
    if (sounding) this.showDrops(sounding);
    const whole = {
      ...given,
      depth: sounding ? sounding.depth_below_ground : given.depth,
      inlet: { ...given.pump, value: given.side === 'below' ? -given.pump.value : given.pump.value },
      leaves: given.bury ? quantity(-given.bury.value, given.bury.unit) : given.stated.on_top,
    };
    const drops = sounding && this.faultOfDrops(sounding);
    if (drops) return this.showFaults({ drops });
    if (lengthInWell(whole) <= 0) return this.showFaults({ bury: this.t('outside_bury') });
    const question = suctionQuestion(whole, this.language.texts.parts);
    const answer = await ask(`${this.service}/v1/suction-feasibility`, question);
    if (!isLast()) return;
    if (!MARKS[answer?.verdict]) throw failure();
    this.showAnswer(answer, question, given);
    this.isSettled = true;
    this.tell('answered', answer);
  }

  /** Do what a method asks for, unless it asks anew meanwhile; offer the method again where the service is away. */
  async attempt(method, task) {
    const turn = this.turns[method] += 1;
    const isLast = () => this.isConnected && turn === this.turns[method];
    try {
      await task(isLast);
    } catch (failed) {
      // What nobody can tell as an answer is none.
      if (!('problem' in failed)) console.error(failed);
      if (!isLast()) return;
      this.result.hidden = true;
      this.unsettle();
      const { status } = failed.problem ?? {};
      if (status < 500 && status !== 429) return this.refuse(failed);
      this.status.replaceChildren(h('p', { part: 'error' }, this.t(status ? 'overloaded' : 'unreachable')),
        button(this.t('retry'), () => this.again(method)));
    }
  }

  again(method) {
    this.status.replaceChildren();
    // The button that had it is gone.
    this.root.querySelector('.main').focus();
    this[method]();
  }

  tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  // What came of it

  clear() {
    this.unsay('error');
    this.status.replaceChildren();
    this.result.hidden = true;
    this.unsettle();
  }

  unsay(kind) {
    for (const name of [...Object.keys(FIELDS), 'drops']) this.say(name, kind);
  }

  say(name, kind, ...message) {
    const place = this.root.querySelector(`#${name}-${kind}`);
    if (!place) return;
    place.replaceChildren(...message);
    place.hidden = !message.length;
    if (message.length) place.closest('details')?.setAttribute('open', '');
    if (kind === 'error') this.controlOf(name).setAttribute('aria-invalid', message.length > 0);
  }

  controlOf(name) {
    return name === 'drops' ? this.root.querySelector('.stopwatch') : this.root.querySelector(`#${name}`);
  }

  /** What is wrong with the form, told as the service tells what is wrong with a request. */
  showFaults(faults) {
    for (const [name, fault] of Object.entries(faults)) this.say(name, 'error', fault);
    this.toFirstFault();
    const errors = Object.entries(faults).map(([name, detail]) => ({ pointer: `/${name}`, detail }));
    this.tell('refused', { type: 'about:blank', title: NAME, detail: this.t('refused'), errors });
  }

  toFirstFault() {
    this.status.replaceChildren(h('p', { part: 'error' }, this.t('refused')));
    this.root.querySelector('[aria-invalid=true]').focus();
  }

  refuse({ problem, fields }) {
    const isSaid = (fault) => fault?.pointer?.split && fault.detail?.includes;
    const elsewhere = this.place([problem.errors].flat().filter(isSaid), fields, 'error');
    if (this.root.querySelector('[aria-invalid=true]')) this.toFirstFault();
    else {
      const told = elsewhere.length ? elsewhere : [saidByService(problem.detail)];
      this.status.replaceChildren(h('p', { part: 'error' }, this.t('refused_whole'), ' ', ...told));
    }
    this.tell('refused', problem);
  }

  /** Put what the service says at its fields; give back what belongs to none. */
  place(said, fields, kind) {
    const places = {};
    for (const { pointer, detail } of said) {
      // The service's doubts have no codes: a piece of each tells which it is.
      const [, own] = Object.entries(this.language.texts[`${kind}s`]).find(([piece]) => detail.includes(piece)) ?? [];
      const field = fieldAt(fields, pointer) ?? '';
      (places[field] ??= new Map()).set(own ?? detail, own ? h('span', {}, own) : saidByService(detail));
    }
    const { '': elsewhere = new Map(), ...atFields } = places;
    for (const [field, told] of Object.entries(atFields)) this.say(field, kind, ...told.values());
    return [...elsewhere.values()];
  }

  showAnswer(answer, { body, fields }, given) {
    const { language } = this;
    // Where the intake hangs follows from the pipe's length here, and how far that reaches is asked.
    const doubts = answer.warnings.filter(({ pointer }) => pointer !== '/intake_elevation');
    const elsewhere = this.place(doubts, fields, 'doubt');
    this.status.replaceChildren(headline(answer, fields, language, given));
    this.result.replaceChildren();
    filled(this.result, {}, [
      leversView(answer, language),
      limitsView(answer, body, language),
      profileFigure(answer, body.line, language),
      h('h3', {}, this.t('answer.cautions')), cautionList(answer.cautions, language),
      elsewhere.length > 0 && [h('h3', {}, this.t('answer.doubts')), list(elsewhere)],
      opened(this.t('answer.reasons'), list(answer.reasons.map(saidByService))),
      this.tools(body, given.tap),
    ]);
    this.result.hidden = this.result.inert = false;
    this.status.scrollIntoView();
  }

  // Links

  tools(body, tap) {
    const copied = h('span', { role: 'status' });
    return h('div', { part: 'tools' }, this.sheet && this.sheetLink(body, tap),
      this.isLinked && button(this.t('tools.copy'), () => this.copyLink(copied)), copied);
  }

  /** The service's own page makes the sheet of what stands behind the #, which no log sees. */
  sheetLink(body, tap) {
    const { sheet } = this;
    const packed = encodeURIComponent(JSON.stringify({ suction: body, ...sheet, tap }));
    const href = `${this.service}/embed/v1/site-sheet#${packed}`;
    const [cut_in, cut_out, highest] = [...sheet.pressures, tap].map((value) => this.language.measured(value));
    return [
      h('a', { href, target: '_blank', rel: 'noreferrer', part: 'button main' }, this.t('tools.sheet')),
      h('p', { part: 'hint' }, this.t('tools.sheet_assumes', { cut_in, cut_out, tap: highest })),
    ];
  }

  /** What tells this element from the others of its page. */
  get key() {
    return this.id || this.getAttribute('pump-name') || '';
  }

  /** Whether it takes links: of those with one key the first does. */
  get isLinked() {
    const all = [...this.getRootNode().querySelectorAll(`${NAME}[permalink]`)];
    return all.find(({ key }) => key === this.key) === this;
  }

  async copyLink(place) {
    const told = { for: this.key, units: this.units, in: this.in, drops: this.drops.join(' ') };
    const inputs = new URLSearchParams({ ...this.values, ...told });
    const link = `${location.href.split('#')[0]}${FRAGMENT}${inputs}`;
    const byHand = () =>
      h('label', {}, this.t('tools.copy_by_hand'), h('input', { part: 'input', readonly: true, value: link }));
    // A page without TLS has no clipboard.
    const copying = navigator.clipboard?.writeText(link) ?? Promise.reject();
    place.replaceChildren(await copying.then(() => this.t('tools.copied'), byHand));
  }

  /** Whether the page's address holds answers for this element; it has them then. */
  readLink() {
    if (!this.isLinked || !location.hash.startsWith(FRAGMENT)) return false;
    const { drops = '', ...values } = Object.fromEntries(new URLSearchParams(location.hash.slice(FRAGMENT.length)));
    if (values.for !== this.key || values.units !== this.units) return false;
    this.values = { in: '', ...values };
    this.drops = drops.split(' ').map(Number).filter((time) => time > SHORTEST_FALL && time < LONGEST_FALL);
    return true;
  }
}

if (!customElements.get(NAME)) customElements.define(NAME, SuctionCheck);
