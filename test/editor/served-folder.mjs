// A folder of this machine as a page of the web sees it: fetched over HTTP.
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { join, normalize } from 'node:path';

/**
 * Serves a folder to any page. The workbench's rules let its workers load scripts from `localhost` and from no other address without TLS.
 * @returns {Promise<{ address: string, requested: string[], close: () => void }>} `requested` grows with the files asked for
 */
export async function serveFolder(folder) {
  const requested = [];
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://localhost').pathname));
    requested.push(path);
    answer(response, join(folder, path), path);
  });
  await new Promise((resolve) => server.listen(0, 'localhost', resolve));
  return { address: `http://localhost:${server.address().port}`, requested, close: () => server.close() };
}

const types = { '.js': 'text/javascript', '.json': 'application/json' };

function answer(response, file, path) {
  response.setHeader('Access-Control-Allow-Origin', '*');
  response.setHeader('Content-Type', types[path.slice(path.lastIndexOf('.'))] ?? 'application/octet-stream');
  try {
    response.end(readFileSync(file));
  } catch {
    response.statusCode = 404;
    response.end();
  }
}
