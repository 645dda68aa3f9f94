# SPDX-License-Identifier: GPL-3.0-or-later
# The presetter writes its tools as an asset of MTConnect: is the measured diameter the one used?
cat >"$work/asset.xml" <<'END'
<?xml version="1.0" encoding="UTF-8"?>
<MTConnectAssets xmlns="urn:mtconnect.org:MTConnectAssets:2.4">
  <Assets>
    <CuttingTool serialNumber="7" toolId="7" assetId="7.1" timestamp="2026-11-30T08:00:00Z">
      <CuttingToolLifeCycle>
        <CutterStatus><Status>AVAILABLE</Status></CutterStatus>
        <Measurements>
          <CuttingDiameterMax code="DC" nominal="6" units="MILLIMETER">5.975</CuttingDiameterMax>
          <DepthOfCutMax code="APMX" units="MILLIMETER">13</DepthOfCutMax>
          <ProtrudingLength code="LPR" units="MILLIMETER">22</ProtrudingLength>
        </Measurements>
      </CuttingToolLifeCycle>
    </CuttingTool>
  </Assets>
</MTConnectAssets>
END
ask cut --tools "$work/asset.xml" --material 6082 --tool T7 --spindle 12000rpm --feed 600mm/min --depth 1mm --format json
if grep -q 'without expat' "$work/err"; then
    exits 65
else
    exits 0 1
    holds 'measured, not nominal' 'named(d["inputs"], "diameter")["value"] == 0.005975'
    holds 'as it stands out' 'named(d["inputs"], "stickout")["value"] == 0.022'
    # the same asset with a document type is refused before anything is expanded
    sed '2i<!DOCTYPE MTConnectAssets [<!ENTITY six "6">]>' "$work/asset.xml" >"$work/entity.xml"
    ask list tools --tools "$work/entity.xml"
    exits 65
    says 'entity.xml:2'
fi
