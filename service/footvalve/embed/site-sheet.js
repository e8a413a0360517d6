/**
 * Turns this page into the site sheet of what stands behind the # of its address: what suction-check.js asked the service,
 * the pump's points and the switch as the shop's page tells them, and the highest tap. No log of a server holds it.
 */

const { origin } = new URL(import.meta.url);
const status = document.querySelector('[role=status]');
const again = document.querySelector('button');

/** The body for site-plan. */
function planOf({ suction, points, pressures: [cutIn, cutOut], tap }) {
  const { units, site, depth_to_water, seasonal_fall, drawdown, pump, line } = suction;
  return {
    units,
    site,
    depth_to_water,
    seasonal_fall,
    well: { drawdown },
    suction_line: line,
    pump: { ...pump, points: points.map(([pressure, flow]) => ({ pressure, flow })) },
    switch: { cut_in: cutIn, cut_out: cutOut },
    house_elevation: tap,
  };
}

/** The plan of the address; undefined where it holds none. */
function planInAddress() {
  try {
    return planOf(JSON.parse(decodeURIComponent(location.hash.slice(1))));
  } catch {
    return undefined;
  }
}

function say(...sentences) {
  const paragraphs = sentences.map((sentence) => Object.assign(document.createElement('p'), { textContent: sentence }));
  status.replaceChildren(...paragraphs);
}

async function refuse(response) {
  const isBusy = response.status === 429 || response.status >= 500;
  const { detail, errors = [] } = await response.json();
  again.hidden = !isBusy;
  say(
    isBusy ? 'The service cannot answer just now.' : 'There is no sheet of this plan.',
    ...(errors.length ? errors.map((error) => `${error.pointer}: ${error.detail}`) : [detail]),
  );
}

async function draw() {
  const plan = planInAddress();
  if (!plan) return say('This address holds no plan. Open the sheet by its link in the suction check.');
  const headers = { accept: 'text/html', 'content-type': 'application/json' };
  try {
    const response = await fetch(`${origin}/v1/site-plan`, { method: 'POST', headers, body: JSON.stringify(plan) });
    if (!response.ok) return await refuse(response);
    const sheet = new DOMParser().parseFromString(await response.text(), 'text/html');
    document.replaceChild(document.adoptNode(sheet.documentElement), document.documentElement);
  } catch {
    say('The service cannot be reached.');
    again.hidden = false;
  }
}

again.addEventListener('click', draw);
addEventListener('hashchange', () => location.reload());
draw();
