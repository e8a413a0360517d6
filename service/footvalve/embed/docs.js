// The contract of this service, to read and to try. Nothing is asked of any other host.

const contract = document.getElementById('contract');

// What Swagger UI leaves without a name, out of the keyboard's reach, or on a level that skips one.
const MENDED = {
  'h3.opblock-tag': ['aria-level', '2'],
  '.opblock-body h4': ['aria-level', '3'],
  '.opblock-body h5': ['aria-level', '4'],
  '.copy-to-clipboard button': ['aria-label', 'Copy'],
  'textarea.body-param__text': ['aria-label', 'Body of the request'],
  'select.examples-select-element': ['aria-label', 'Example'],
  'pre.microlight': ['tabindex', '0'],
};

function mend() {
  for (const [selector, [name, value]] of Object.entries(MENDED)) {
    for (const element of contract.querySelectorAll(`${selector}:not([${name}])`)) element.setAttribute(name, value);
  }
}

new MutationObserver(mend).observe(contract, { childList: true, subtree: true });

SwaggerUIBundle({
  url: '/openapi.json',
  domNode: contract,
  validatorUrl: null,
  deepLinking: true,
  filter: true,
  docExpansion: 'list',
  defaultModelsExpandDepth: -1,
  displayRequestDuration: true,
  tryItOutEnabled: true,
  syntaxHighlight: { theme: 'obsidian' },
  // Else a link stands within each operation's button.
  plugins: [{ components: { DeepLink: ({ text }) => text } }],
});
