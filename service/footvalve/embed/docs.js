// The contract of this service, to read and to try. Nothing is asked of any other host.

SwaggerUIBundle({
  url: '/openapi.json',
  domNode: document.getElementById('contract'),
  validatorUrl: null,
  deepLinking: true,
  filter: true,
  docExpansion: 'list',
  defaultModelsExpandDepth: -1,
  displayRequestDuration: true,
  tryItOutEnabled: true,
});
