// Gives a window an extension as a page of the web would: from an address, without a machine behind it. The workbench
// then runs its browser entry in the extension host of a web worker.

/** Makes a page's workbench take an extension from an address, as the host of a web page does. */
export async function addExtensionFrom(page, address) {
  const { protocol, host } = new URL(address);
  await page.addInitScript(configureExtensions, [{ scheme: protocol.replace(':', ''), authority: host, path: '/' }]);
}

/** Runs in the page, before the workbench reads its configuration from an attribute. */
function configureExtensions(additionalBuiltinExtensions) {
  const readAttribute = Element.prototype.getAttribute;
  Element.prototype.getAttribute = function (name) {
    const value = readAttribute.call(this, name);
    if (this.id !== 'vscode-workbench-web-configuration' || name !== 'data-settings') return value;
    return JSON.stringify({ ...JSON.parse(value), additionalBuiltinExtensions });
  };
}
