// How a shop may react to what the suction check tells: by a sentence below the pump that was asked about.

const SURE_ENOUGH = 0.9;

/** A yes that may well be a no is to be looked at, like one with little to spare. */
const reactionTo = ({ verdict, chance_feasible: chance = 1 }) =>
  verdict === 'feasible' && chance < SURE_ENOUGH ? 'marginal' : verdict;

function say(check, reaction) {
  const place = check.closest('article').querySelector('.shop');
  place.textContent = place.dataset[reaction] ?? '';
}

document.addEventListener('answered', ({ target, detail }) => say(target, reactionTo(detail)));
document.addEventListener('refused', ({ target }) => say(target, 'refused'));
document.addEventListener('changed', ({ target }) => say(target));
