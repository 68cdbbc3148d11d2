<?xml version="1.0" encoding="utf-8" ?>
<ogr:FeatureCollection
     gml:id="aFeatureCollection"
     xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
     xsi:schemaLocation="http://ogr.maptools.org/ plots.xsd"
     xmlns:ogr="http://ogr.maptools.org/"
     xmlns:gml="http://www.opengis.net/gml/3.2">
  <gml:boundedBy><gml:Envelope srsName="urn:ogc:def:crs:EPSG::4326"><gml:lowerCorner>50.0 -12.125</gml:lowerCorner><gml:upperCorner>50.3125 11.51</gml:upperCorner></gml:Envelope></gml:boundedBy>
                                                                                                                                                           
  <ogr:featureMember>
    <ogr:plots gml:id="plots.0">
      <gml:boundedBy><gml:Envelope srsName="urn:ogc:def:crs:EPSG::4326"><gml:lowerCorner>50 10</gml:lowerCorner><gml:upperCorner>50.01 10.01</gml:upperCorner></gml:Envelope></gml:boundedBy>
      <ogr:geometryProperty><gml:Polygon srsName="urn:ogc:def:crs:EPSG::4326" gml:id="plots.geom.0"><gml:exterior><gml:LinearRing><gml:posList>50 10 50.0 10.01 50.01 10.01 50.01 10.0 50 10</gml:posList></gml:LinearRing></gml:exterior><gml:interior><gml:LinearRing><gml:posList>50.002 10.002 50.004 10.002 50.004 10.004 50.002 10.004 50.002 10.002</gml:posList></gml:LinearRing></gml:interior></gml:Polygon></ogr:geometryProperty>
      <ogr:number>001</ogr:number>
      <ogr:name>Αγρός</ogr:name>
    </ogr:plots>
  </ogr:featureMember>
  <ogr:featureMember>
    <ogr:plots gml:id="plots.1">
      <gml:boundedBy><gml:Envelope srsName="urn:ogc:def:crs:EPSG::4326"><gml:lowerCorner>50 11</gml:lowerCorner><gml:upperCorner>50.01 11.51</gml:upperCorner></gml:Envelope></gml:boundedBy>
      <ogr:geometryProperty><gml:MultiSurface srsName="urn:ogc:def:crs:EPSG::4326" gml:id="plots.geom.1"><gml:surfaceMember><gml:Polygon gml:id="plots.geom.1.0"><gml:exterior><gml:LinearRing><gml:posList>50 11 50.0 11.01 50.01 11.0 50 11</gml:posList></gml:LinearRing></gml:exterior></gml:Polygon></gml:surfaceMember><gml:surfaceMember><gml:Polygon gml:id="plots.geom.1.1"><gml:exterior><gml:LinearRing><gml:posList>50.0 11.5 50.0 11.51 50.01 11.5 50.0 11.5</gml:posList></gml:LinearRing></gml:exterior></gml:Polygon></gml:surfaceMember></gml:MultiSurface></ogr:geometryProperty>
      <ogr:number>002</ogr:number>
      <ogr:name>Νησιά</ogr:name>
    </ogr:plots>
  </ogr:featureMember>
  <ogr:featureMember>
    <ogr:plots gml:id="plots.2">
      <gml:boundedBy><gml:Envelope srsName="urn:ogc:def:crs:EPSG::4326"><gml:lowerCorner>50.25 -12.125</gml:lowerCorner><gml:upperCorner>50.3125 -12.0625</gml:upperCorner></gml:Envelope></gml:boundedBy>
      <ogr:geometryProperty><gml:Polygon srsName="urn:ogc:def:crs:EPSG::4326" gml:id="plots.geom.2"><gml:exterior><gml:LinearRing><gml:posList>50.25 -12.125 50.25 -12.0625 50.3125 -12.0625 50.25 -12.125</gml:posList></gml:LinearRing></gml:exterior></gml:Polygon></ogr:geometryProperty>
      <ogr:number>003</ogr:number>
      <ogr:name xsi:nil="true"/>
    </ogr:plots>
  </ogr:featureMember>
</ogr:FeatureCollection>
