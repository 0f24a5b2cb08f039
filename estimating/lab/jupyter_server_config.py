"""Server settings of the workbook, read by JupyterLab when it starts.

The page settings lie beside this file: labconfig/ (F9 and a button calculate, no single key changes a notebook) and
custom/ (style).
"""

from pathlib import Path

c = get_config()  # type: ignore[name-defined]  # noqa: F821 (JupyterLab provides it to this file)

try:
    from estimating.lab.channels import PromptChannels
except ImportError:  # the server does not promise where its connection lives; without ours the workbook still runs
    pass
else:
    c.ServerApp.kernel_websocket_connection_class = PromptChannels

c.LabApp.custom_css = True
c.LabApp.extra_labextensions_path = [str(Path(__file__).parent / "extensions")]  # opens a trusted notebook by itself
c.VoilaConfiguration.file_allowlist = [".*\\.(png|jpg|jpeg|gif|svg)"]
c.VoilaConfiguration.template = "workbook"  # voila/templates beside this file
c.VoilaConfiguration.show_tracebacks = True
c.ServerApp.tornado_settings = {"static_custom_path": [str(Path(__file__).parent / "custom")]}
c.ServerApp.jpserver_extensions = {"jupyter_lsp": False}  # it searches the machine for language servers, at every start

# The workbook works without a network: nobody is asked for news, newer versions or extensions.
c.LabApp.extension_manager = "readonly"
c.LabApp.news_url = None
c.LabApp.check_for_updates_class = "jupyterlab.handlers.announcements.NeverCheckForUpdate"
