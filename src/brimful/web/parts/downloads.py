"""Files to carry away, made when they are asked for; an address only picks from those there are."""

import mimetypes
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.web.guard import LOOPBACK, host_name
from brimful.web.parts.catalogue import offered
from brimful.web.parts.part import Part
from brimful.web.shelf import kept
from brimful.web.show import bench_of

TYPES = {
    ".ics": "text/calendar",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    ".json": "application/json",
}


def download(request: Request) -> Response:
    """One file by its name."""
    sight, wanted, address = bench_of(request).sight(), request.path_params["name"], reached_at(request)
    files = (file for shelf in offered(sight, address) for file in shelf.files) if sight.scene is not None else iter(())
    found = next((file for file in files if file.name == wanted), None)
    if found is None:
        raise HTTPException(404)
    ending = f".{found.name.rpartition('.')[2]}"
    kind = TYPES.get(ending) or mimetypes.guess_type(found.name)[0] or "application/octet-stream"
    how = "inline" if ending == ".pdf" else "attachment"
    content = kept(sight, f"download/{address}/{found.name}", found.make)
    return Response(content, media_type=kind, headers={"Content-Disposition": f'{how}; filename="{found.name}"'})


def reached_at(request: Request) -> str:
    """The address of the plan's page for a phone that reads a label; "" where only this machine reaches it."""
    if host_name(request.headers.get("host", "")) in LOOPBACK:
        return ""
    return f"{request.url.scheme}://{request.url.netloc}/p/{quote(request.path_params['plan'])}"


PARTS = (Part("download/{name}", download),)
